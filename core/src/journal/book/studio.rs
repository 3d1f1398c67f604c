//! The projection of entries about the studio itself.

use super::TimelineEntry;
use crate::colour::reference::Light;
use crate::journal::{Body, CameraTaught, CardRole, DeviceId, Figure, OwnFigureOf, ReferenceCard};
use jiff::Timestamp;
use std::collections::BTreeMap;
use ulid::Ulid;

/// What is known of the studio.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Studio {
    /// The newest own figures, each with the instant of its event.
    pub figures: BTreeMap<OwnFigureOf, (Figure, Timestamp)>,
    /// The newest reference card for each role.
    pub cards: BTreeMap<CardRole, ReferenceCard>,
    /// Names of devices.
    pub devices: BTreeMap<DeviceId, String>,
    /// The newest lesson of each device's camera in each light, with its entry and instant.
    pub cameras: BTreeMap<(DeviceId, Light), (CameraTaught, Ulid, Timestamp)>,
    pub timeline: Vec<TimelineEntry>,
}

impl Studio {
    /// Applies a visible entry.
    pub(super) fn apply(&mut self, TimelineEntry { body, at, entry, .. }: &TimelineEntry) {
        match body {
            Body::OwnFigure(own) => {
                self.figures.insert(own.what.clone(), (own.figure, *at));
            }
            Body::ReferenceCard(card) => {
                self.cards.insert(card.role, card.clone());
            }
            Body::CameraTaught(taught) => {
                let key = (entry.device.clone(), taught.light);
                self.cameras.insert(key, ((**taught).clone(), entry.id, *at));
            }
            Body::DeviceNamed(named) => {
                self.devices.insert(entry.device.clone(), named.name.clone());
            }
            _ => {}
        }
    }
}
