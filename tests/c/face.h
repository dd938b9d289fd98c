/* The checks of the C face; see face.c. */
#ifndef SPOTWISE_TESTS_FACE_H
#define SPOTWISE_TESTS_FACE_H

/* Runs every check and prints the ones that fail; returns their number. */
int face(void);

#endif
