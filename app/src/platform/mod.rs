//! What the phone can do for us: each file one ability, asked for politely and
//! done without where it is missing.

pub mod arrival;
pub mod camera;
pub mod clock;
pub mod download;
pub mod file;
pub mod notification;
pub mod preferences;
pub mod print;
pub mod remembered;
pub mod service_worker;
pub mod share;
pub mod sound;
pub mod speech;
pub mod storage;
pub mod vibration;
pub mod wake_lock;
