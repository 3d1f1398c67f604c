//! No request leaves the app's origin: the app makes none, and the content security policy
//! blocks others.

use std::io::{BufRead, BufReader};
use std::net::{Ipv4Addr, TcpListener};
use std::time::Duration;

use serde_json::Value;

use crate::error::{TestFailure, TestResult, ensure};
use crate::phone::Phone;

pub async fn run(phone: &mut Phone) -> TestResult {
    phone.open("/").await?;
    phone.wait_until_offline_ready().await?;
    let origin = phone.server.origin();
    let asked =
        phone.execute("return performance.getEntriesByType('resource').map((e) => e.name)").await?;
    for address in asked.as_array().into_iter().flatten().filter_map(Value::as_str) {
        ensure(address.starts_with(&origin), || format!("the app asked for {address}"))?;
    }
    try_other_origin(phone).await?;
    phone.discard_console("what the policy refused").await
}

/// Tries every kind of request to another origin that listens.
async fn try_other_origin(phone: &Phone) -> TestResult {
    let elsewhere = TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?;
    elsewhere.set_nonblocking(true)?;
    let address = format!("http://{}", elsewhere.local_addr()?);
    let refused = phone.execute_async(&ATTEMPTS.replace("ELSEWHERE", &address)).await?;
    let refused = refused
        .as_array()
        .cloned()
        .ok_or_else(|| TestFailure::new(format!("the attempts did not run: {refused}")))?;
    let arrived = requests(&elsewhere)?;
    ensure(arrived.is_empty(), || format!("another origin was asked: {arrived:?}"))?;
    for rule in ["connect-src", "img-src", "script-src-elem", "style-src-elem", "form-action"] {
        let held = refused.iter().filter_map(Value::as_str).any(|one| rule.starts_with(one));
        ensure(held, || format!("{rule} refused nothing; refused were {refused:?}"))?;
    }
    Ok(())
}

/// The first line of each request received. Connections without data do not count: engines
/// preconnect before they have read the policy.
fn requests(elsewhere: &TcpListener) -> TestResult<Vec<String>> {
    let mut arrived = Vec::new();
    while let Ok((connection, _)) = elsewhere.accept() {
        connection.set_nonblocking(false)?;
        connection.set_read_timeout(Some(Duration::from_millis(200)))?;
        let mut line = String::new();
        // A silent connection times out with an empty line.
        let _ = BufReader::new(connection).read_line(&mut line);
        if !line.is_empty() {
            arrived.push(line.trim().to_owned());
        }
    }
    Ok(arrived)
}

const ATTEMPTS: &str = r#"
    const refused = [];
    document.addEventListener('securitypolicyviolation', (event) => refused.push(event.effectiveDirective));
    await fetch('ELSEWHERE/fetch').catch(() => {});
    navigator.sendBeacon?.('ELSEWHERE/beacon');
    new Image().src = 'ELSEWHERE/image.png';
    const add = (tag, set) => document.head.append(Object.assign(document.createElement(tag), set));
    add('script', { src: 'ELSEWHERE/script.js' });
    add('link', { rel: 'stylesheet', href: 'ELSEWHERE/style.css' });
    const form = Object.assign(document.createElement('form'), { action: 'ELSEWHERE/form', method: 'post' });
    document.body.append(form);
    try { form.submit(); } catch {} // Firefox throws, the others only report
    form.remove();
    await new Promise((settled) => setTimeout(settled, 1500));
    return refused;
"#;
