/* The checks of the C face; see face.c. */
#ifndef SPOTWISE_TESTS_FACE_H
#define SPOTWISE_TESTS_FACE_H

#include "spotwise.h"

/* A job that holds, the one of the READMEs. */
spotwise_job face_good_job(void);

/* Runs every check and prints the ones that fail; returns their number. */
int face(void);

#endif
