/* From reset to main: vectors, FPU, memory, semihosting. */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

extern uint32_t stack_top[];
extern uint32_t data_start[];
extern uint32_t data_end[];
extern uint32_t data_image[];
extern uint32_t bss_start[];
extern uint32_t bss_end[];

int main(void);
void initialise_monitor_handles(void);
void _exit(int code);

void reset(void);
static void fault(void);

typedef union vector {
    uint32_t *address;
    void (*handler)(void);
} vector;

__attribute__((section(".vectors"), used)) static const vector vectors[16] = {
    {.address = stack_top}, {.handler = reset}, {.handler = fault}, {.handler = fault},
    {.handler = fault},     {.handler = fault}, {.handler = fault},
};

/* Any fault ends the run as a failure; without this an emulator would run on for ever. */
static void fault(void)
{
    _exit(3);
}

void reset(void)
{
    volatile uint32_t *const coprocessor_access = (volatile uint32_t *)0xE000ED88u;
    *coprocessor_access |= 0xFu << 20; /* the FPU, before any code that could use it */
    __asm__ volatile("dsb\n\tisb" ::: "memory");

    memcpy(data_start, data_image, (size_t)((char *)data_end - (char *)data_start));
    memset(bss_start, 0, (size_t)((char *)bss_end - (char *)bss_start));
    initialise_monitor_handles();
    exit(main());
}

/* The C library calls these around main; there are no constructors here. */
void _init(void);
void _init(void) {}
void _fini(void);
void _fini(void) {}
