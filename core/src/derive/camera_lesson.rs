//! The record of what a camera was taught, and which lesson a photo is measured by.
//! Not here: how a camera is taught, which is `colour::camera`.

use crate::colour::camera::lesson::PhotoLesson;
use crate::colour::camera::taught::TaughtCamera;
use crate::colour::reference::Light;
use crate::journal::{Body, Book, CameraTaught, DeviceId, PhotoId, TaughtSurface, TimelineEntry};
use ulid::Ulid;

impl CameraTaught {
    /// The record of a lesson, without a name.
    pub fn of(found: &PhotoLesson, light: Light) -> Self {
        let camera = found.camera();
        let surface = |surface: &crate::colour::camera::taught::KnownSurface| TaughtSurface {
            rgb: surface.codes,
            lightness: surface.lab.l,
            a: surface.lab.a,
            b: surface.lab.b,
        };
        Self {
            light,
            matrix: camera.matrix,
            tone: camera.tone,
            rest: camera.rest,
            before_delta_e00: found.lesson.before,
            after_delta_e00: found.lesson.after,
            surface_name: String::new(),
            surfaces: found.surfaces.iter().map(surface).collect(),
        }
    }

    pub fn camera(&self) -> TaughtCamera {
        TaughtCamera { matrix: self.matrix, tone: self.tone, rest: self.rest }
    }
}

impl Book {
    /// What the camera of a device was taught in a light, with the entry of the lesson.
    pub fn lesson(&self, device: &DeviceId, light: Light) -> Option<(Ulid, TaughtCamera)> {
        let (taught, entry, _) = self.studio.cameras.get(&(device.clone(), light))?;
        Some((*entry, taught.camera()))
    }

    /// The device that a photo of a batch was saved on: the one whose camera took it, as far
    /// as is known.
    pub fn device_of_photo(&self, batch: Ulid, photo: &PhotoId) -> Option<DeviceId> {
        let entries = self.batches.get(&batch)?.visible_entries();
        let mut taken =
            entries.filter(|entry| matches!(&entry.body, Body::Photo(of) if of.photo == *photo));
        taken.next().map(|entry| entry.entry.device.clone())
    }

    /// Colour readings of photos of a device in a light that were measured without its newest
    /// lesson: batch and entry, oldest first.
    pub fn readings_to_measure_again(&self, device: &DeviceId, light: Light) -> Vec<(Ulid, Ulid)> {
        let Some((lesson, _)) = self.lesson(device, light) else { return Vec::new() };
        let stale = |batch: Ulid, entry: &TimelineEntry| match &entry.body {
            Body::ColourReading(reading) => reading.photo.as_ref().is_some_and(|photo| {
                reading.light.unwrap_or(Light::Daylight) == light
                    && reading.camera != Some(lesson)
                    && !reading.patches.is_empty()
                    && self.device_of_photo(batch, photo).as_ref() == Some(device)
            }),
            _ => false,
        };
        let mut found = Vec::new();
        for batch in self.batches.values() {
            let entries = batch.visible_entries().filter(|entry| stale(batch.id, entry));
            found.extend(entries.map(|entry| (batch.id, entry.entry.id)));
        }
        found
    }
}
