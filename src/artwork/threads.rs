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
use std::sync::Mutex;

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
    // No thread panics while it holds the queue; if one ever did, there is nothing left to do.
    let next = || queue.lock().ok().and_then(|mut bands| bands.next());
    let mut rooms = room.chunks_exact_mut(words);
    let Some(own) = rooms.next() else { return Ok(()) };
    let mut own = plan.tile_room(own)?;
    rayon::in_place_scope(|scope| {
        for room in rooms.take(threads - 1) {
            let (next, stop, finished) = (&next, &stop, &finished);
            scope.spawn(move |_| {
                let Ok(mut room) = plan.tile_room(room) else { return };
                while let Some((number, band)) = next() {
                    let go_on = &mut |_: f64| {
                        if stop.load(Ordering::Relaxed) { Err(Error::Stopped { done: 0.0 }) } else { Ok(()) }
                    };
                    if plan.expose_band(scene, number, band, &mut room, go_on).is_err() {
                        return;
                    }
                    finished.fetch_add(1, Ordering::Relaxed);
                }
            });
        }
        let mut told = 0.0;
        while let Some((number, band)) = next() {
            let done = plan.expose_band(scene, number, band, &mut own, &mut |share| {
                let finished = finished.load(Ordering::Relaxed) as f64;
                told = crate::model::math::greater(told, (finished + share) / count as f64);
                watch.done(told)
            });
            if done.is_err() {
                stop.store(true, Ordering::Relaxed);
                return done;
            }
            finished.fetch_add(1, Ordering::Relaxed);
        }
        Ok(())
    })
}
