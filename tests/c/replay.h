/* The replay of rows of numbers through the C face; see replay.c. */
#ifndef SPOTWISE_TESTS_REPLAY_H
#define SPOTWISE_TESTS_REPLAY_H

#include <stdint.h>

#define REPLAY_FUNCTIONS 114

typedef struct replay_function {
    const char *name;
    uint32_t inputs;
    uint32_t outputs;
} replay_function;

extern const replay_function replay_functions[REPLAY_FUNCTIONS];

/* Replays one file into another; 0 on success. */
int replay(const char *in_path, const char *out_path);

#endif
