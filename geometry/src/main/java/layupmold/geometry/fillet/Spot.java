package layupmold.geometry.fillet;

import org.joml.Vector3d;

/** A point of the sheet and where the filling puts it. */
final class Spot {

    /** On the sheet. */
    double x;
    double y;
    double z;
    /** On the filled surface: the same where the ball reaches the sheet. */
    double filledX;
    double filledY;
    double filledZ;
    /** Where the complete filling puts it. */
    double targetX;
    double targetY;
    double targetZ;
    /** Centre of the nearest free ball. */
    double centreX;
    double centreY;
    double centreZ;
    /** How far the ball's envelope is; 0 where the ball reaches the sheet. */
    double depthMm;
    /** Whether it was set between two balls that are nearest to one place of the sheet, not over the sheet. */
    boolean isBetween;
    /** Whether the filling tears beside it. */
    boolean isTorn;
    /** How much of the filling is worth making, seen from its depth in the whole corner: 0 to 1. */
    double worth = 1;
    /** How much of the filling is made here: less than 1 in shallow corners and near a place that is left as it is. */
    double share = 1;

    boolean isFilled() {
        return depthMm > 0 && share > 0;
    }

    /** Distance between filled places. */
    double away(Spot other) {
        return Vector3d.distance(filledX, filledY, filledZ, other.filledX, other.filledY, other.filledZ);
    }

    /** Puts the target at the ball's radius from its centre, on the way there from a point. */
    void aim(double px, double py, double pz, double radiusMm) {
        double scale = 1 - radiusMm / Vector3d.distance(px, py, pz, centreX, centreY, centreZ);
        targetX = px + scale * (centreX - px);
        targetY = py + scale * (centreY - py);
        targetZ = pz + scale * (centreZ - pz);
    }

    /** Puts the spot as far towards its target as its share says. */
    void fill() {
        filledX = x + share * (targetX - x);
        filledY = y + share * (targetY - y);
        filledZ = z + share * (targetZ - z);
    }
}
