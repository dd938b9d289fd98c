/*
 * Stack and instructions of one call. The stack below the caller is painted before the call, and
 * looked at after it. SysTick counts 25 MHz of virtual time, in which the emulator, told to,
 * spends exactly 2^5 ns on each instruction.
 */
#ifndef SPOTWISE_TESTS_MEASURE_H
#define SPOTWISE_TESTS_MEASURE_H

#include <stdint.h>

/* Deepest stack that can be told, in bytes. */
#define MEASURE_WINDOW 8192u
#define MEASURE_PAINT 0xA5A5A5A5u

#define SYSTICK_CONTROL (*(volatile uint32_t *)0xE000E010u)
#define SYSTICK_RELOAD (*(volatile uint32_t *)0xE000E014u)
#define SYSTICK_CURRENT (*(volatile uint32_t *)0xE000E018u)
#define SYSTICK_MASK 0xFFFFFFu
#define SYSTICK_PASSED_ZERO (1u << 16)
/* Ticks of a call that outlasted the clock. */
#define MEASURE_TOO_LONG UINT32_MAX

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
    (void)SYSTICK_CONTROL; /* forgets that zero was passed */
    measure_started = SYSTICK_CURRENT;
}

MEASURE_INLINE void after_call(uint32_t function)
{
    const uint32_t current = SYSTICK_CURRENT;
    /* The clock counts down; past zero and below its start again, it has gone round. */
    const int too_long = (SYSTICK_CONTROL & SYSTICK_PASSED_ZERO) != 0 && current <= measure_started;
    const uint32_t ticks = too_long ? MEASURE_TOO_LONG : (measure_started - current) & SYSTICK_MASK;
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
