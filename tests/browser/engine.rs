//! The three browser engines, and how each is started at phone size.

use std::fs;
use std::io;
use std::path::Path;
use std::process::Command;

use serde_json::{Map, Value, json};

/// A phone's screen in CSS pixels.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ScreenSize {
    pub width: u32,
    pub height: u32,
}

/// A common phone of today, and a small one.
pub const STANDARD_PHONE: ScreenSize = ScreenSize { width: 390, height: 844 };
pub const SMALL_PHONE: ScreenSize = ScreenSize { width: 360, height: 640 };

/// Where a browser keeps things.
#[derive(Clone, Copy, Debug)]
pub struct BrowserFolders<'a> {
    /// What pages store; may have been used before.
    pub profile: &'a Path,
    /// Files that the person saves.
    pub downloads: &'a Path,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Engine {
    Chromium,
    Firefox,
    /// WebKitGTK: the family that every browser on an iPhone uses.
    WebKit,
}

impl Engine {
    pub const ALL: [Engine; 3] = [Engine::Chromium, Engine::Firefox, Engine::WebKit];

    pub fn name(self) -> &'static str {
        match self {
            Engine::Chromium => "chromium",
            Engine::Firefox => "firefox",
            Engine::WebKit => "webkit",
        }
    }

    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|engine| engine.name() == name)
    }

    /// The program that drives the engine, listening on `port`. WebKitGTK opens
    /// its window on `display`; the others need none.
    pub fn driver(self, port: u16, display: &str) -> Command {
        let mut command = match self {
            Engine::Chromium => Command::new("chromedriver"),
            Engine::Firefox => Command::new("geckodriver"),
            Engine::WebKit => Command::new("WebKitWebDriver"),
        };
        command.arg(format!("--port={port}"));
        if self == Engine::WebKit {
            command.env("DISPLAY", display);
            command.env("NO_AT_BRIDGE", "1").env("GSETTINGS_BACKEND", "memory");
        }
        command
    }

    /// What a session asks of the driver.
    pub fn capabilities(self, keep: BrowserFolders<'_>, size: ScreenSize) -> Map<String, Value> {
        let ScreenSize { width, height } = size;
        let profile = keep.profile.display().to_string();
        let downloads = keep.downloads.display().to_string();
        let asked = match self {
            Engine::Chromium => json!({
                "goog:loggingPrefs": { "browser": "ALL" },
                "goog:chromeOptions": {
                    "binary": "/usr/bin/chromium",
                    "prefs": {
                        "download.default_directory": downloads,
                        "download.prompt_for_download": false,
                    },
                    "mobileEmulation": {
                        "deviceMetrics": { "width": width, "height": height, "pixelRatio": 2.0, "touch": true },
                    },
                    "args": [
                        "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic",
                        "--no-first-run", "--disable-background-networking",
                        "--disable-component-update", "--disable-sync",
                        "--disable-dev-shm-usage", "--hide-scrollbars",
                        format!("--user-data-dir={profile}"),
                        format!("--window-size={width},{height}"),
                    ],
                },
            }),
            Engine::Firefox => json!({
                "moz:firefoxOptions": {
                    "binary": "/usr/bin/firefox-esr",
                    "args": ["-headless", "-profile", profile],
                    "prefs": {
                        "browser.download.folderList": 2,
                        "browser.download.dir": downloads,
                        "browser.download.always_ask_before_handling_new_types": false,
                    },
                },
            }),
            Engine::WebKit => json!({
                "webkitgtk:browserOptions": {
                    "binary": concat!(env!("CARGO_MANIFEST_DIR"), "/webkit_phone.py"),
                    "args": [
                        format!("--profile={profile}"),
                        format!("--downloads={downloads}"),
                        format!("--width={width}"),
                        format!("--height={height}"),
                    ],
                },
            }),
        };
        match asked {
            Value::Object(asked) => asked,
            _ => Map::new(),
        }
    }

    /// Writes what the engine must find in its profile before it first starts.
    ///
    /// # Errors
    /// If the profile cannot be written.
    pub fn prepare(self, profile: &Path) -> io::Result<()> {
        fs::create_dir_all(profile)?;
        if self == Engine::Firefox {
            fs::write(profile.join("user.js"), FIREFOX_PREFERENCES)?;
            // Firefox keeps its window wider than a phone unless told otherwise.
            fs::create_dir_all(profile.join("chrome"))?;
            fs::write(profile.join("chrome/userChrome.css"), FIREFOX_WINDOW)?;
        }
        Ok(())
    }
}

/// The page's console goes to the log and the browser's own does not; nothing is
/// looked up, updated or reported; the window may be as narrow as a phone.
const FIREFOX_PREFERENCES: &str = r#"
user_pref("devtools.console.stdout.content", true);
user_pref("devtools.console.stdout.chrome", false);
user_pref("toolkit.legacyUserProfileCustomizations.stylesheets", true);
user_pref("app.normandy.enabled", false);
user_pref("app.update.disabledForTesting", true);
user_pref("browser.newtabpage.enabled", false);
user_pref("browser.region.update.enabled", false);
user_pref("browser.safebrowsing.malware.enabled", false);
user_pref("browser.safebrowsing.phishing.enabled", false);
user_pref("browser.sessionstore.resume_from_crash", false);
user_pref("browser.shell.checkDefaultBrowser", false);
user_pref("browser.startup.page", 0);
user_pref("datareporting.policy.dataSubmissionEnabled", false);
user_pref("extensions.systemAddon.update.enabled", false);
user_pref("media.gmp-manager.updateEnabled", false);
user_pref("network.captive-portal-service.enabled", false);
user_pref("network.connectivity-service.enabled", false);
user_pref("services.settings.server", "data:,#remote-settings-dummy/v1");
user_pref("toolkit.startup.max_resumed_crashes", -1);
"#;

const FIREFOX_WINDOW: &str = ":root { min-width: 0 !important; min-height: 0 !important; }\n";
