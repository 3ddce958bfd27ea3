// SPDX-License-Identifier: GPL-3.0-or-later
// Three-vectors and 3x3 matrices (row-major) as plain arrays.
#ifndef BYS_VEC3_H
#define BYS_VEC3_H

#include <math.h>
#include <string.h>

static inline double bys_dot(const double a[3], const double b[3])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

static inline double bys_norm(const double a[3])
{
    return sqrt(bys_dot(a, a));
}

static inline void bys_cross(double out[3], const double a[3], const double b[3])
{
    out[0] = a[1] * b[2] - a[2] * b[1];
    out[1] = a[2] * b[0] - a[0] * b[2];
    out[2] = a[0] * b[1] - a[1] * b[0];
}

/// y += s x
static inline void bys_axpy(double y[3], double s, const double x[3])
{
    y[0] += s * x[0];
    y[1] += s * x[1];
    y[2] += s * x[2];
}

/// out = A x
static inline void bys_mat_vec(double out[3], const double A[9], const double x[3])
{
    for (int i = 0; i < 3; i++)
        out[i] = A[3 * i] * x[0] + A[3 * i + 1] * x[1] + A[3 * i + 2] * x[2];
}

/// C = A B
static inline void bys_mat_mul(double C[9], const double A[9], const double B[9])
{
    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++)
            C[3 * i + j] = A[3 * i] * B[j] + A[3 * i + 1] * B[3 + j] + A[3 * i + 2] * B[6 + j];
}

/// C -= A B
static inline void bys_mat_mul_sub(double *restrict C, const double *restrict A,
                                   const double *restrict B)
{
    for (int i = 0; i < 3; i++) {
        const double a0 = A[3 * i], a1 = A[3 * i + 1], a2 = A[3 * i + 2];
        C[3 * i] -= a0 * B[0] + a1 * B[3] + a2 * B[6];
        C[3 * i + 1] -= a0 * B[1] + a1 * B[4] + a2 * B[7];
        C[3 * i + 2] -= a0 * B[2] + a1 * B[5] + a2 * B[8];
    }
}

/// A += s B
static inline void bys_mat_axpy(double A[9], double s, const double B[9])
{
    for (int i = 0; i < 9; i++)
        A[i] += s * B[i];
}

/// A += s a b^T
static inline void bys_outer_add(double A[9], double s, const double a[3], const double b[3])
{
    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++)
            A[3 * i + j] += s * a[i] * b[j];
}

/// K = [r]x, so that K v = r x v
static inline void bys_skew(double K[9], const double r[3])
{
    K[0] = 0.0, K[1] = -r[2], K[2] = r[1];
    K[3] = r[2], K[4] = 0.0, K[5] = -r[0];
    K[6] = -r[1], K[7] = r[0], K[8] = 0.0;
}

/// R <- exp([theta]x) R  (Rodrigues)
static inline void bys_rotate(double R[9], const double theta[3])
{
    const double a2 = bys_dot(theta, theta), a = sqrt(a2);
    const double s = a > 1e-6 ? sin(a) / a : 1.0 - a2 / 6.0;
    const double c = a > 1e-6 ? (1.0 - cos(a)) / a2 : 0.5 - a2 / 24.0;
    double K[9], K2[9], E[9], out[9];
    bys_skew(K, theta);
    bys_mat_mul(K2, K, K);
    for (int i = 0; i < 9; i++)
        E[i] = (i % 4 == 0 ? 1.0 : 0.0) + s * K[i] + c * K2[i];
    bys_mat_mul(out, E, R);
    memcpy(R, out, sizeof out);
}

#endif
