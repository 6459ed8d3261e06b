package layupmold.geometry.opening;

/**
 * What collars are wanted around openings, so that their edges keep their places when they are offset.
 *
 * @param wanted for each opening, whether it gets one if its edge turns away from the tool
 * @param widthMm of the collars
 * @param offsetMm signed offset along the face's front that will follow
 * @param front 1 if the tool is on the face's front, -1 if on its back
 * @param mostUndercutMm edges that lean farther back over the tool are better cut off than copied
 */
public record CollarSpec(
        boolean[] wanted, double widthMm, double offsetMm, double front, double mostUndercutMm) {

    static CollarSpec none(int openings) {
        return new CollarSpec(new boolean[openings], 0, 0, 1, 0);
    }
}
