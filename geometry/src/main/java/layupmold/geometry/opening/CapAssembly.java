package layupmold.geometry.opening;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/** Appends patches to the face and its collars. */
final class CapAssembly {

    private double[] xyz;
    private int[] triangles;
    private int[] capOfTriangle;
    private double[] trimProfile;
    private int vertexCount;
    private int size;

    private CapAssembly(Collars collared, List<OpeningPatches> openings) {
        TriangleMesh face = collared.mesh();
        int vertices = face.vertexCount();
        int corners = face.triangles().length;
        for (OpeningPatches opening : openings) {
            for (OpeningPatches.Part part : opening.parts()) {
                vertices += part.mesh().vertexCount() - part.loop().cornerCount();
                corners += part.mesh().triangles().length;
            }
        }
        xyz = Arrays.copyOf(face.xyz(), 3 * vertices);
        triangles = Arrays.copyOf(face.triangles(), corners);
        capOfTriangle = new int[corners / 3];
        int[] opening = collared.openingOfTriangle();
        Arrays.fill(capOfTriangle, 0, face.triangleCount() - opening.length, -1);
        System.arraycopy(opening, 0, capOfTriangle, face.triangleCount() - opening.length, opening.length);
        trimProfile = new double[vertices];
        vertexCount = face.vertexCount();
        size = face.triangles().length;
    }

    /** @param openingLoops the openings' own edges, whatever stands around them */
    static CappedFace assemble(
            Collars face, int[] perimeterLoop, List<int[]> openingLoops, List<OpeningPatches> openings) {
        EdgeTopology topology = face.topology();
        CapAssembly assembly = new CapAssembly(face, openings);
        List<Cap> caps = new ArrayList<>();
        List<Finding> findings = new ArrayList<>(face.findings());
        for (int i = 0; i < openings.size(); i++) {
            caps.add(assembly.append(i, openings.get(i), vertices(topology, openingLoops.get(i))));
            findings.addAll(openings.get(i).findings());
        }
        return new CappedFace(new TriangleMesh(assembly.xyz, assembly.triangles), assembly.capOfTriangle,
                assembly.trimProfile, vertices(topology, perimeterLoop), List.copyOf(caps), List.copyOf(findings));
    }

    private static int[] vertices(EdgeTopology topology, int[] halfEdges) {
        return Arrays.stream(halfEdges).map(topology::from).toArray();
    }

    private Cap append(int index, OpeningPatches opening, int[] trimLoop) {
        int first = size / 3;
        double area = 0;
        CapShape shape = CapShape.PLANAR;
        List<TrimRing> rings = new ArrayList<>();
        for (OpeningPatches.Part part : opening.parts()) {
            int[] global = appendVertices(part);
            for (int v : part.mesh().triangles()) {
                triangles[size++] = global[v];
            }
            area += part.mesh().area();
            shape = part.shape().compareTo(shape) > 0 ? part.shape() : shape;
            if (part.ring() != null) {
                rings.add(new TrimRing(part.ring().widthMm(), renamed(part.ring().valley(), global),
                        renamed(part.ring().inner(), global)));
            }
        }
        Arrays.fill(capOfTriangle, first, size / 3, index);
        return new Cap(shape, trimLoop, first, size / 3 - first, area, List.copyOf(rings));
    }

    private int[] appendVertices(OpeningPatches.Part part) {
        int corners = part.loop().cornerCount();
        int[] global = Arrays.copyOf(part.loop().vertices, part.mesh().vertexCount());
        for (int v = corners; v < global.length; v++) {
            global[v] = vertexCount;
            System.arraycopy(part.mesh().xyz(), 3 * v, xyz, 3 * vertexCount, 3);
            if (part.ring() != null) {
                trimProfile[vertexCount] = part.profile()[v];
            }
            vertexCount++;
        }
        return global;
    }

    private static int[] renamed(int[] loop, int[] global) {
        return Arrays.stream(loop).map(v -> global[v]).toArray();
    }
}
