/*
 * Stack and instructions of one call. The stack below the caller is painted before the call, and
 * looked at after it. A timer of the board counts 25 MHz of virtual time, in which the emulator,
 * told to, spends exactly 2^5 ns on each instruction; it goes round after 5e9 of them.
 */
#ifndef SPOTWISE_TESTS_MEASURE_H
#define SPOTWISE_TESTS_MEASURE_H

#include <stdint.h>

/* Deepest stack that can be told, in bytes. */
#define MEASURE_WINDOW 65536u
#define MEASURE_PAINT 0xA5A5A5A5u

#define TIMER_CONTROL (*(volatile uint32_t *)0x40000000u)
#define TIMER_VALUE (*(volatile uint32_t *)0x40000004u)
#define TIMER_RELOAD (*(volatile uint32_t *)0x40000008u)

/* The most that any call of each function took. */
typedef struct measurement {
    uint32_t calls;
    uint32_t stack;
    uint32_t ticks;
} measurement;

extern measurement measurements[];
extern uint32_t measure_started;

/* Forced inline, so that the stack pointer is the caller's. */
#define MEASURE_INLINE static inline __attribute__((always_inline))

MEASURE_INLINE uint32_t stack_pointer(void)
{
    uint32_t pointer;
    __asm__ volatile("mov %0, sp" : "=r"(pointer));
    return pointer;
}

MEASURE_INLINE void before_call(void)
{
    const uint32_t top = stack_pointer();
    uint32_t at;
    for (at = top - MEASURE_WINDOW; at < top; at += 4) {
        *(volatile uint32_t *)at = MEASURE_PAINT;
    }
    measure_started = TIMER_VALUE;
}

MEASURE_INLINE void after_call(uint32_t function)
{
    const uint32_t ticks = measure_started - TIMER_VALUE; /* it counts down */
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
