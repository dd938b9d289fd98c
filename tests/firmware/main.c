/*
 * The C face on a bare controller: the checks of face.c, one verdict, and a replay of numbers whose
 * outputs are compared with those of a desktop. Files are the host's, by semihosting.
 */
#include "../c/face.h"
#include "../c/replay.h"
#include "measure.h"
#include "spotwise.h"

#include <stdio.h>

measurement measurements[REPLAY_FUNCTIONS];
reading measure_started;

/* Millionths as a whole number: printf of a double would need a heap. */
static long micro(double number)
{
    return (long)(number * 1e6 + (number < 0.0 ? -0.5 : 0.5));
}

static int print_verdict(void)
{
    const spotwise_job job = face_good_job();
    spotwise_verdict verdict;
    spotwise_verdict_init(&verdict);
    if (spotwise_focus_check(&job, &verdict, NULL) != SPOTWISE_OK) {
        puts("the example job is refused");
        return 1;
    }
    printf("%s\n", spotwise_outcome_text(verdict.outcome));
    printf("spot in focus %ld nm, at the highest place %ld nm, depth of focus %ld um\n",
           micro(verdict.waist_diameter_m * 1e3), micro(verdict.highest.diameter_m * 1e3),
           micro(verdict.depth_full_m));
    return verdict.outcome == SPOTWISE_OUTCOME_HOLDS && micro(verdict.waist_diameter_m * 1e3) == 88143 ? 0 : 1;
}

/* What the clock itself shows between two readings. */
static uint64_t ticks_of_nothing(void)
{
    before_call();
    after_call(0);
    const uint64_t ticks = measurements[0].ticks;
    measurements[0] = (measurement){0, 0, 0};
    return ticks;
}

/* Readings made up: the timers just started, and then so much later, the slow one a tick late or not. */
static int check_rounds(void)
{
    static const uint64_t spans[] = {0, 1, 255, 256, UINT32_MAX, UINT64_C(1) << 32, UINT64_C(7) << 31,
                                     (UINT64_C(9) << 32) - 1, UINT64_C(200) << 32};
    uint32_t i;
    for (i = 0; i < sizeof spans / sizeof spans[0]; i++) {
        uint32_t late;
        for (late = 0; late <= 1; late++) {
            const reading from = {100, 5};
            const reading to = {100 - (uint32_t)spans[i], 5 - (uint32_t)(spans[i] / SLOW_TICK) - late};
            if (ticks_between(from, to) != spans[i]) {
                puts("rounds of the timer are not counted");
                return 1;
            }
        }
    }
    return 0;
}

static int print_measurements(uint64_t nothing)
{
    uint32_t worst = 0;
    uint32_t i;
    printf("%-28s %8s %12s %14s\n", "worst over all calls", "calls", "stack/bytes", "instructions");
    for (i = 0; i < REPLAY_FUNCTIONS; i++) {
        const measurement *most = &measurements[i];
        const uint64_t ticks = most->ticks > nothing ? most->ticks - nothing : 0;
        /* Each tick is 40 ns, each instruction 32 ns. */
        const uint64_t instructions = ticks * 40 / 32;
        const unsigned long millions = (unsigned long)(instructions / 1000000);
        const unsigned long rest = (unsigned long)(instructions % 1000000);
        printf("%-28s %8lu %12lu ", replay_functions[i].name, (unsigned long)most->calls,
               (unsigned long)most->stack);
        if (millions == 0) {
            printf("%14lu\n", rest);
        } else {
            printf("%8lu%06lu\n", millions, rest);
        }
        if (most->stack > worst) {
            worst = most->stack;
        }
    }
    printf("deepest stack of the library: %lu bytes\n", (unsigned long)worst);
    /* A full window says that the stack may be deeper still. */
    return worst < MEASURE_WINDOW ? 0 : 1;
}

int main(void)
{
    start_timers();
    const uint64_t nothing = ticks_of_nothing();

    int failed = check_rounds();
    failed |= face() != 0;
    failed |= print_verdict();
    failed |= replay("replay.in", "replay.out");
    failed |= print_measurements(nothing);
    puts(failed ? "firmware: FAILED" : "firmware: passed");
    return failed;
}
