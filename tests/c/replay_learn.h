/*
 * The part of the replay about learning from test pieces. Part of replay.c, whose helpers it uses.
 */
#ifndef SPOTWISE_TESTS_REPLAY_LEARN_H
#define SPOTWISE_TESTS_REPLAY_LEARN_H

/* Makes one call of this part. */
static uint32_t call_learn(uint32_t function, const double *in, double *out, spotwise_error *error)
{
    uint32_t status = SPOTWISE_E_NULL;
    switch (function) {
    case STUDENT_FACTOR:
        CALL(spotwise_student_factor(in[0], count_of(in[1]), &out[0], error));
        break;
    case CHI_SQUARED_CHANCE:
        CALL(spotwise_chi_squared_chance(in[0], count_of(in[1]), &out[0], error));
        break;
    default:
        break;
    }
    return status;
}

#endif
