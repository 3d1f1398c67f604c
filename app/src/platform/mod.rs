//! What the browser and the device can do: one ability a file, each usable where it is missing.
//! Nothing here knows the book or the screens; storage of the book is in `storage`.

pub mod base;
pub mod clock;
pub mod demo;
pub mod download;
pub mod draft;
pub mod file;
pub mod incoming_file;
pub mod install;
pub mod local_storage;
pub mod notification;
pub mod object_url;
pub mod panic;
pub mod preferences;
pub mod print;
pub mod random;
pub mod service_worker;
pub mod session_storage;
pub mod share;
pub mod sound;
pub mod speech;
pub mod storage_manager;
pub mod vibration;
pub mod wake_lock;
