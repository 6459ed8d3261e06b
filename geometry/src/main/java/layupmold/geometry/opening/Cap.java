package layupmold.geometry.opening;

import java.util.List;

/**
 * One cap as it is in a {@link CappedFace}.
 *
 * @param shape how it was shaped; the plainest of its parts where the opening is pinched into several
 * @param trimLoop vertices of the opening's edge in the order that has the face on its left
 * @param firstTriangle index of its first triangle in the capped mesh
 * @param triangleCount number of its triangles, which are consecutive
 * @param areaMm2 area of the cap
 * @param trimRings the rings for the trim mark, one for each part of the opening where one was asked and fits
 */
public record Cap(
        CapShape shape,
        int[] trimLoop,
        int firstTriangle,
        int triangleCount,
        double areaMm2,
        List<TrimRing> trimRings) {
}
