//! Learning, bath by bath, so that a forecast or a photo never waits for more than one.

use std::cell::Cell;

use super::forecast::next_task;
use crate::worker::protocol::{LearningCommand, OnPart, Outcome, WorkerResponse};

thread_local! {
    static STOPPED: Cell<bool> = const { Cell::new(false) };
}

pub async fn handle(command: LearningCommand, on_part: Option<OnPart>) -> Outcome {
    let LearningCommand::Run { mut learning, batches } = command else {
        STOPPED.set(true);
        return Ok((WorkerResponse::NotHeld, Vec::new()));
    };
    STOPPED.set(false);
    let mut progress = learning.retain(&batches);
    while !progress.is_done() && !STOPPED.get() {
        progress = learning.step(&batches);
        if let Some(on_part) = &on_part {
            on_part(WorkerResponse::LearningPart(progress), Vec::new());
        }
        next_task().await;
    }
    Ok((WorkerResponse::Learnt { learning, progress }, Vec::new()))
}
