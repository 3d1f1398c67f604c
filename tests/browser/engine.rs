//! The three browser engines: drivers, capabilities and profiles at phone size.

use std::fs;
use std::io;
use std::path::Path;
use std::process::Command;

use clap::ValueEnum;
use serde_json::{Map, Value, json};

/// Size of a phone's screen, CSS pixels.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ScreenSize {
    pub width: u32,
    pub height: u32,
}

/// A common phone, and a small one.
pub const STANDARD_PHONE: ScreenSize = ScreenSize { width: 390, height: 844 };
pub const SMALL_PHONE: ScreenSize = ScreenSize { width: 360, height: 640 };

/// Folders of one browser.
#[derive(Clone, Copy, Debug)]
pub struct BrowserFolders<'a> {
    /// The profile, with what pages store.
    pub profile: &'a Path,
    /// Downloaded files.
    pub downloads: &'a Path,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Engine {
    Chromium,
    Firefox,
    /// WebKitGTK: the engine family of browsers on an iPhone.
    #[value(name = "webkit")]
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

    /// The driver's command, listening on `port`. WebKitGTK opens its window on `display`;
    /// the others run headless.
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

    /// The capabilities of a WebDriver session.
    pub fn capabilities(self, folders: BrowserFolders<'_>, size: ScreenSize) -> Map<String, Value> {
        let ScreenSize { width, height } = size;
        let profile = folders.profile.display().to_string();
        let downloads = folders.downloads.display().to_string();
        let capabilities = match self {
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
        match capabilities {
            Value::Object(capabilities) => capabilities,
            _ => Map::new(),
        }
    }

    /// Writes what the engine needs in its profile before its first start.
    ///
    /// # Errors
    /// If the profile cannot be written.
    pub fn prepare(self, profile: &Path) -> io::Result<()> {
        fs::create_dir_all(profile)?;
        if self == Engine::Firefox {
            fs::write(profile.join("user.js"), FIREFOX_PREFERENCES)?;
            // By default, Firefox's window cannot be as narrow as a phone.
            fs::create_dir_all(profile.join("chrome"))?;
            fs::write(profile.join("chrome/userChrome.css"), FIREFOX_WINDOW)?;
        }
        Ok(())
    }
}

/// Logs the page's console but not the browser's own; no look-ups, updates or reports; allows
/// a narrow window.
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
