//! The looks in which each screen is looked at, and how a browser is brought to show them.

use serde_json::json;

use crate::chromedriver;
use crate::engine::{Engine, SMALL_PHONE, STANDARD_PHONE, ScreenSize};
use crate::error::TestResult;
use crate::phone::Phone;

/// A way to look at a screen.
#[derive(Clone, Copy, Debug)]
pub struct Look {
    /// Also the name of the folder of its pictures.
    pub name: &'static str,
    pub size: ScreenSize,
    pub setting: Setting,
}

/// What is set beside the size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Setting {
    Usual,
    /// A preference of the device: a media feature, its value, and the theme that it brings.
    Prefers(&'static str, &'static str, &'static str),
    /// Twice the browser's font size.
    LargeText,
    Print,
}

/// A phone on its side.
const LANDSCAPE: ScreenSize = ScreenSize { width: 844, height: 390 };
/// A sheet of A4 between margins of 1 cm, at 96 px per inch.
const A4: ScreenSize = ScreenSize { width: 718, height: 1047 };

pub const USUAL: Look = Look { name: "light", size: STANDARD_PHONE, setting: Setting::Usual };

pub const ALL: [Look; 8] = [
    USUAL,
    Look { name: "small", size: SMALL_PHONE, setting: Setting::Usual },
    Look { name: "landscape", size: LANDSCAPE, setting: Setting::Usual },
    Look {
        name: "dark",
        size: STANDARD_PHONE,
        setting: Setting::Prefers("prefers-color-scheme", "dark", "dark"),
    },
    Look {
        name: "contrast",
        size: STANDARD_PHONE,
        setting: Setting::Prefers("prefers-contrast", "more", "contrast"),
    },
    Look {
        name: "forced",
        size: STANDARD_PHONE,
        setting: Setting::Prefers("forced-colors", "active", "light"),
    },
    Look { name: "text-200", size: STANDARD_PHONE, setting: Setting::LargeText },
    Look { name: "print", size: A4, setting: Setting::Print },
];

impl Look {
    /// Only Chromium's driver emulates colours of the system's own and paper.
    pub fn is_for(&self, engine: Engine) -> bool {
        let emulated = self.setting == Setting::Print || self.name == "forced";
        engine == Engine::Chromium || !emulated
    }

    /// Whether the picture shows the screen alone, and not all that scrolls.
    pub fn is_cropped(&self) -> bool {
        ["small", "landscape"].contains(&self.name)
    }

    /// Brings the open page into this look.
    pub async fn apply(&self, phone: &Phone) -> TestResult {
        resize(phone, self.size).await?;
        let (mut media, mut features, mut theme) = ("", vec![], "light");
        match self.setting {
            Setting::Prefers(name, value, brings) => {
                features.push(json!({ "name": name, "value": value }));
                theme = brings;
            }
            Setting::Print => media = "print",
            Setting::Usual | Setting::LargeText => {}
        }
        if phone.engine == Engine::Chromium {
            let emulated = json!({ "media": media, "features": features });
            chromedriver::devtools(phone.client()?, "Emulation.setEmulatedMedia", emulated).await?;
        } else {
            let set = format!("document.documentElement.setAttribute('data-look', '{theme}')");
            phone.execute(&set).await?;
        }
        let text = if self.setting == Setting::LargeText { "200%" } else { "" };
        phone.execute(&format!("document.documentElement.style.fontSize = '{text}'")).await?;
        // WebKitGTK and the app's own listeners follow a frame later.
        let frame = "await new Promise((next) => requestAnimationFrame(next));";
        phone.execute_async(&frame.repeat(3)).await?;
        Ok(())
    }

    /// The picture of the open page.
    pub async fn picture(&self, phone: &Phone) -> TestResult<Vec<u8>> {
        let whole = phone.engine == Engine::Chromium && !self.is_cropped();
        if whole {
            let height = phone.execute(HEIGHT).await?.as_u64().and_then(|h| u32::try_from(h).ok());
            let height = height.unwrap_or_default().clamp(self.size.height, TALLEST);
            resize(phone, ScreenSize { height, ..self.size }).await?;
        }
        let picture = phone.screen().await;
        if whole {
            resize(phone, self.size).await?;
        }
        picture
    }
}

/// Of a picture, CSS pixels.
const TALLEST: u32 = 3600;

/// Of all that scrolls, with the bars that lie above it.
const HEIGHT: &str = "
    const dialog = [...document.querySelectorAll('dialog[open]')].at(-1);
    return Math.ceil(dialog ? (dialog.scrollHeight + 10) / 0.92 : document.documentElement.scrollHeight);";

async fn resize(phone: &Phone, size: ScreenSize) -> TestResult {
    if phone.engine != Engine::Chromium {
        return phone.resize(size).await;
    }
    let metrics = json!({
        "width": size.width, "height": size.height, "deviceScaleFactor": 1, "mobile": false,
        "screenWidth": size.width, "screenHeight": size.height,
    });
    chromedriver::devtools(phone.client()?, "Emulation.setDeviceMetricsOverride", metrics).await?;
    Ok(())
}
