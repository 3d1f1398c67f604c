//! Learning in the worker.

use std::rc::Rc;

use bleachfield_core::learning::{Learning, LearningBatch, LearningProgress};

use super::connection::send;
use crate::worker::protocol::{LearningCommand, OnPart, Payload, WorkerRequest, WorkerResponse};

/// Goes on learning until it is done or [`stop_learning`] is called. `on_progress` is called
/// after each bath. `None` without a worker.
pub async fn learn(
    learning: Learning,
    batches: Vec<LearningBatch>,
    on_progress: impl Fn(LearningProgress) + 'static,
) -> Option<(Learning, LearningProgress)> {
    let on_part: OnPart = Rc::new(move |part, _| {
        if let WorkerResponse::LearningPart(progress) = part {
            on_progress(progress);
        }
    });
    let command = LearningCommand::Run { learning: Box::new(learning), batches };
    match send(&WorkerRequest::Learning(command), Payload::new(), Some(on_part)).await {
        Ok((WorkerResponse::Learnt { learning, progress }, _)) => Some((*learning, progress)),
        _ => None,
    }
}

/// Ends a run after the present bath.
pub async fn stop_learning() {
    let request = WorkerRequest::Learning(LearningCommand::Stop);
    // Without a worker nothing runs.
    let _ = send(&request, Payload::new(), None).await;
}
