// Reads a 3MF file with lib3mf, prints what it holds, and writes it again: read3mf in.3mf out.3mf
#include <cstdio>
#include <cstdlib>
#include <vector>
#include "Model/COM/NMR_DLLInterfaces.h"

using namespace NMR;

static void check(HRESULT result, const char* what) {
    if (result != LIB3MF_OK) {
        std::printf("failed %s %08x\n", what, (unsigned) result);
        std::exit(1);
    }
}

int main(int argc, char** argv) {
    if (argc != 3) {
        return 2;
    }
    PLib3MFModel* model;
    PLib3MFModelReader* reader;
    check(lib3mf_createmodel(&model), "createmodel");
    check(lib3mf_model_queryreader(model, "3mf", &reader), "queryreader");
    check(lib3mf_reader_readfromfileutf8(reader, argv[1]), "read");
    DWORD warnings = 0;
    check(lib3mf_reader_getwarningcount(reader, &warnings), "warnings");
    std::printf("warnings %u\n", (unsigned) warnings);

    PLib3MFModelResourceIterator* objects;
    BOOL more = 0;
    check(lib3mf_model_getmeshobjects(model, &objects), "objects");
    check(lib3mf_resourceiterator_movenext(objects, &more), "next");
    while (more) {
        PLib3MFModelResource* object;
        DWORD vertices = 0, triangles = 0;
        BOOL manifold = 0;
        check(lib3mf_resourceiterator_getcurrent(objects, &object), "current");
        check(lib3mf_meshobject_getvertexcount(object, &vertices), "vertices");
        check(lib3mf_meshobject_gettrianglecount(object, &triangles), "triangles");
        check(lib3mf_meshobject_ismanifoldandoriented(object, &manifold), "manifold");
        std::vector<MODELMESHVERTEX> v(vertices);
        std::vector<MODELMESHTRIANGLE> t(triangles);
        check(lib3mf_meshobject_getvertices(object, v.data(), vertices, nullptr), "vertices");
        check(lib3mf_meshobject_gettriangleindices(object, t.data(), triangles, nullptr), "triangles");
        double volume = 0;
        for (const MODELMESHTRIANGLE& f : t) {
            const FLOAT* a = v[f.m_nIndices[0]].m_fPosition;
            const FLOAT* b = v[f.m_nIndices[1]].m_fPosition;
            const FLOAT* c = v[f.m_nIndices[2]].m_fPosition;
            volume += (double) a[0] * ((double) b[1] * c[2] - (double) b[2] * c[1])
                    + (double) a[1] * ((double) b[2] * c[0] - (double) b[0] * c[2])
                    + (double) a[2] * ((double) b[0] * c[1] - (double) b[1] * c[0]);
        }
        std::printf("vertices %u\ntriangles %u\nmanifold %d\nvolume %.9g\n", (unsigned) vertices,
                (unsigned) triangles, manifold ? 1 : 0, volume / 6);
        lib3mf_release(object);
        check(lib3mf_resourceiterator_movenext(objects, &more), "next");
    }
    PLib3MFModelWriter* writer;
    check(lib3mf_model_querywriter(model, "3mf", &writer), "querywriter");
    check(lib3mf_writer_writetofileutf8(writer, argv[2]), "write");
    lib3mf_release(writer);
    lib3mf_release(objects);
    lib3mf_release(reader);
    lib3mf_release(model);
    return 0;
}
