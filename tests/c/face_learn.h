/*
 * What the C face promises of learning from test pieces: init functions, refusals, and the worked examples of
 * the header. Part of face.c, whose macros it uses.
 */
#ifndef SPOTWISE_TESTS_FACE_LEARN_H
#define SPOTWISE_TESTS_FACE_LEARN_H

static void check_statistics(void)
{
    const double nan_value = nan("");
    double number;
    CHECK_REFUSED_NUMBER(spotwise_student_factor, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_CONFIDENCE, 0.4, 0);
    CHECK_REFUSED_NUMBER(spotwise_student_factor, SPOTWISE_E_NOT_FINITE, SPOTWISE_PARAM_CONFIDENCE, nan_value, 8);
    CHECK_REFUSED_NUMBER(spotwise_student_factor, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_DEGREES_OF_FREEDOM,
                         0.95, 0);
    CHECK_REFUSED_NUMBER(spotwise_chi_squared_chance, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_CHI_SQUARED, -1.0,
                         0);
    CHECK_REFUSED_NUMBER(spotwise_chi_squared_chance, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_DEGREES_OF_FREEDOM,
                         1.0, UINT32_MAX);
    CHECK(spotwise_student_factor(0.95, 8, &number, NULL) == SPOTWISE_OK && fabs(number - 2.306) < 5e-4);
    CHECK(spotwise_chi_squared_chance(15.507, 8, &number, NULL) == SPOTWISE_OK && fabs(number - 0.05) < 5e-6);
}

static void check_learning(void)
{
    check_statistics();
}

#endif
