package layupmold.geometry.mesh.io;

/** The mesh formats that can be read. */
enum MeshFormat {
    STL_BINARY, STL_ASCII, OBJ, PLY, THREE_MF
}
