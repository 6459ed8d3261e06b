package layupmold.geometry.inspect;

import java.util.Arrays;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * What a tool surface is offset from.
 *
 * @param mesh the face that the part copies, openings closed, and perhaps the flange around it: an open sheet facing
 *     the part's outside
 * @param isCopied which of its triangles are not flange
 */
public record CopiedSurface(TriangleMesh mesh, boolean[] isCopied) {

    /** A face without a flange. */
    public static CopiedSurface of(TriangleMesh face) {
        boolean[] isCopied = new boolean[face.triangleCount()];
        Arrays.fill(isCopied, true);
        return new CopiedSurface(face, isCopied);
    }

    /** @param regions {@link MoldRegion} ordinal of each triangle */
    public static CopiedSurface of(TriangleMesh sheet, byte[] regions) {
        return new CopiedSurface(sheet, MoldRegion.areCopied(regions));
    }
}
