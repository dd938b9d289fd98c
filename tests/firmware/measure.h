/*
 * Stack and instructions of one call. The stack below the caller is painted before the call, and
 * looked at after it. A quick timer of the board counts 25 MHz of virtual time, in which the
 * emulator, told to, spends exactly 2^5 ns on each instruction. It goes round after 5e9 of them; a
 * slow timer, 256 times slower, tells how often it did.
 */
#ifndef SPOTWISE_TESTS_MEASURE_H
#define SPOTWISE_TESTS_MEASURE_H

#include <stdint.h>

/* Deepest stack that can be told, in bytes. */
#define MEASURE_WINDOW 65536u
#define MEASURE_PAINT 0xA5A5A5A5u

#define QUICK_CONTROL (*(volatile uint32_t *)0x40000000u)
#define QUICK_VALUE (*(volatile uint32_t *)0x40000004u)
#define QUICK_RELOAD (*(volatile uint32_t *)0x40000008u)

#define SLOW_RELOAD (*(volatile uint32_t *)0x40002000u)
#define SLOW_VALUE (*(volatile uint32_t *)0x40002004u)
#define SLOW_CONTROL (*(volatile uint32_t *)0x40002008u)
/* On, going round, a tick for 256 of the quick timer, 32 bits, no interrupt. */
#define SLOW_ON 0xCAu
#define SLOW_TICK 256u

/* What both timers show; they count down. */
typedef struct reading {
    uint32_t quick;
    uint32_t slow;
} reading;

/* The most that any call of each function took. */
typedef struct measurement {
    uint64_t ticks;
    uint32_t calls;
    uint32_t stack;
} measurement;

extern measurement measurements[];
extern reading measure_started;

static inline void start_timers(void)
{
    QUICK_RELOAD = UINT32_MAX;
    QUICK_VALUE = UINT32_MAX;
    SLOW_RELOAD = UINT32_MAX;
    SLOW_CONTROL = SLOW_ON;
    QUICK_CONTROL = 1; /* on, no interrupt */
}

/* Quick ticks from one reading to a later one. */
static inline uint64_t ticks_between(reading from, reading to)
{
    const uint32_t quick = from.quick - to.quick;
    const uint64_t about = (uint64_t)(from.slow - to.slow) * SLOW_TICK;
    /* All but a few slow ticks of what `quick` lacks is whole rounds: take the nearest number. */
    const uint64_t rounds = (about + UINT64_C(0x80000000) - quick) >> 32;
    return (rounds << 32) + quick;
}

/* Forced inline, so that the stack pointer is the caller's. */
#define MEASURE_INLINE static inline __attribute__((always_inline))

MEASURE_INLINE uint32_t stack_pointer(void)
{
    uint32_t pointer;
    __asm__ volatile("mov %0, sp" : "=r"(pointer));
    return pointer;
}

MEASURE_INLINE reading read_timers(void)
{
    reading now;
    now.slow = SLOW_VALUE;
    now.quick = QUICK_VALUE;
    return now;
}

MEASURE_INLINE void before_call(void)
{
    const uint32_t top = stack_pointer();
    uint32_t at;
    for (at = top - MEASURE_WINDOW; at < top; at += 4) {
        *(volatile uint32_t *)at = MEASURE_PAINT;
    }
    measure_started = read_timers();
}

MEASURE_INLINE void after_call(uint32_t function)
{
    const uint64_t ticks = ticks_between(measure_started, read_timers());
    const uint32_t top = stack_pointer();
    uint32_t at = top - MEASURE_WINDOW;
    measurement *const most = &measurements[function];
    while (at < top && *(volatile uint32_t *)at == MEASURE_PAINT) {
        at += 4;
    }
    most->calls++;
    if (top - at > most->stack) {
        most->stack = top - at;
    }
    if (ticks > most->ticks) {
        most->ticks = ticks;
    }
}

#define BEFORE_CALL() before_call()
#define AFTER_CALL(function) after_call(function)

#endif
