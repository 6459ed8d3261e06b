/** Telling that two meshes are one shape, moved or mirrored. */
package layupmold.geometry.congruence;
