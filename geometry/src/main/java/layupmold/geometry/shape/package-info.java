/**
 * Closed thin shells made by construction: a surface over a planar domain, an inner wall at an uneven thickness and a
 * rim around every loop. Samples, tests and benchmarks take their parts from here, because every triangle's truth (outer
 * wall, inner wall, rim of which loop) is known.
 */
package layupmold.geometry.shape;
