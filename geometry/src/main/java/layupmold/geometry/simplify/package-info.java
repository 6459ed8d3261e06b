/** Fewer triangles within a stated deviation, on coordinates that 32-bit floats keep. */
package layupmold.geometry.simplify;
