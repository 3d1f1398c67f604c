//! Learning, bath by bath. Any other request ends a run after its present bath, and none begins
//! while a forecast is made: a forecast or a photo never waits for more than one bath.

use std::cell::Cell;

use super::forecast::{is_being_made, next_task};
use crate::worker::protocol::{LearningCommand, OnPart, Outcome, WorkerResponse};

thread_local! {
    static STOPPED: Cell<bool> = const { Cell::new(false) };
}

/// Ends a run after its present bath.
pub fn give_way() {
    STOPPED.set(true);
}

pub async fn handle(command: LearningCommand, on_part: Option<OnPart>) -> Outcome {
    let LearningCommand::Run { mut learning, batches } = command else {
        give_way();
        return Ok((WorkerResponse::NotHeld, Vec::new()));
    };
    STOPPED.set(false);
    let mut progress = learning.retain(&batches);
    while !progress.is_done() && !STOPPED.get() && !is_being_made() {
        progress = learning.step(&batches);
        if let Some(on_part) = &on_part {
            on_part(WorkerResponse::LearningPart(progress), Vec::new());
        }
        next_task().await;
    }
    Ok((WorkerResponse::Learnt { learning, progress }, Vec::new()))
}
