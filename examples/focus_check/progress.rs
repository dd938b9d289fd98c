//! How far long work is, told to a person at a terminal.

use spotwise::artwork::{Step, Watch};
use std::io::{IsTerminal, Write, stderr};
use std::time::{Duration, Instant};

/// Work that takes no longer says nothing.
const PATIENCE: Duration = Duration::from_secs(1);

/// Does some work, and tells how far it is.
pub fn watched<T>(work: &str, job: impl FnOnce(&mut Watch<'_>) -> T) -> T {
    let started = Instant::now();
    let at_terminal = stderr().is_terminal();
    let mut told = None;
    let mut tell = |share: f64| {
        let percent = (100.0 * share) as u32;
        if at_terminal && started.elapsed() > PATIENCE && told != Some(percent) {
            told = Some(percent);
            write(&format!("\r{work}: {percent} %"));
        }
        Step::GoOn
    };
    let done = job(&mut Watch::new(&mut tell));
    if told.is_some() {
        write("\r\x1b[K");
    }
    done
}

fn write(text: &str) {
    // A terminal that is gone is no reason to stop.
    let _ = write!(stderr(), "{text}").and_then(|()| stderr().flush());
}
