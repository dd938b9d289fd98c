//! The exposure over several threads: rows of tiles, each taken by the next thread that is free.
//!
//! Every tile is exposed by itself, so that no bit depends on who does it.

use super::exposure::ExposurePlan;
use super::tile::Scene;
use super::watch::Watch;
use crate::error::Error;
use core::iter::Enumerate;
use core::slice::ChunksMut;
use core::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use core::time::Duration;
use std::sync::Mutex;

/// From question to question whether to go on, while others finish.
const PAUSE: Duration = Duration::from_micros(500);

pub(super) fn expose(
    plan: &ExposurePlan<'_>,
    scene: &Scene<'_>,
    bands: Enumerate<ChunksMut<'_, u16>>,
    room: &mut [u64],
    words: usize,
    watch: &mut Watch<'_>,
) -> Result<(), Error> {
    let count = plan.bands();
    let threads = rayon::current_num_threads().min(count);
    let queue = Mutex::new(bands);
    let stop = AtomicBool::new(false);
    let finished = AtomicUsize::new(0);
    let fault = Mutex::new(None);
    // No thread panics while it holds the queue; if one ever did, there is nothing left to do.
    let next = || queue.lock().ok().and_then(|mut bands| bands.next());
    let go_on = || if stop.load(Ordering::Relaxed) { Err(Error::Stopped { done: 0.0 }) } else { Ok(()) };
    let mut rooms = room.chunks_exact_mut(words);
    let Some(own) = rooms.next() else { return Ok(()) };
    let mut own = plan.tile_room(own)?;
    let help = |room| {
        let mut room = plan.tile_room(room)?;
        while let Some((number, band)) = next() {
            plan.expose_band(scene, number, band, &mut room, &mut |_| go_on())?;
            finished.fetch_add(1, Ordering::Relaxed);
        }
        Ok(())
    };
    let mut lead = || {
        let mut told = 0.0;
        let mut tell = |share: f64| {
            let finished = finished.load(Ordering::Relaxed) as f64;
            told = crate::model::math::greater(told, (finished + share) / count as f64);
            watch.done(told)
        };
        while let Some((number, band)) = next() {
            plan.expose_band(scene, number, band, &mut own, &mut |share| go_on().and_then(|()| tell(share)))?;
            finished.fetch_add(1, Ordering::Relaxed);
        }
        while finished.load(Ordering::Relaxed) < count {
            go_on()?;
            tell(0.0)?;
            std::thread::sleep(PAUSE);
        }
        Ok(())
    };
    let done = rayon::in_place_scope(|scope| {
        for room in rooms.take(threads - 1) {
            let (help, stop, fault) = (&help, &stop, &fault);
            scope.spawn(move |_| {
                if let Err(error) = help(room)
                    && !stop.swap(true, Ordering::Relaxed)
                    && let Ok(mut fault) = fault.lock()
                {
                    *fault = Some(error);
                }
            });
        }
        let done = lead();
        if done.is_err() {
            stop.store(true, Ordering::Relaxed);
        }
        done
    });
    fault.into_inner().ok().flatten().map_or(done, Err)
}
