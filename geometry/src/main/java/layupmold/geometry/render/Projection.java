package layupmold.geometry.render;

import java.util.List;
import org.joml.Vector3d;

/**
 * A camera fitted to a scene and a picture: scene millimetres to samples.
 *
 * <p>Depth is measured along {@code forward} from the middle of the scene. "Nearness" grows towards the camera and is
 * affine across a triangle in the picture: 1 / distance in perspective, minus depth without.
 */
final class Projection {

    final Vector3d right;
    final Vector3d up;
    final Vector3d forward;
    final Vector3d middle;
    /** Camera's distance from the middle, mm; 0 for none (orthographic). */
    final double distance;
    /** Samples a mm in the plane through the middle. */
    final double scale;
    final double shiftX;
    final double shiftY;
    /** Radius about the middle that holds every vertex, mm. */
    final double radius;

    private Projection(Camera camera, List<Item> items, Window window) {
        forward = new Vector3d(camera.forward()).normalize();
        right = new Vector3d(camera.forward()).cross(camera.up()).normalize();
        up = new Vector3d(right).cross(forward);
        double[] box = bounds(items);
        middle = new Vector3d(box[0] + box[3], box[1] + box[4], box[2] + box[5]).div(2);
        radius = Math.max(1e-6, 0.5 * Math.sqrt(
                square(box[3] - box[0]) + square(box[4] - box[1]) + square(box[5] - box[2])));
        distance = camera.fieldOfViewDeg() == 0
                ? 0 : radius / Math.sin(Math.toRadians(camera.fieldOfViewDeg() / 2)) * 1.0001;
        double[] extent = extent(items);
        double width = Math.max(1e-6, extent[2] - extent[0]);
        double height = Math.max(1e-6, extent[3] - extent[1]);
        scale = Math.min(window.width() / width, window.height() / height);
        shiftX = window.left() + window.width() / 2 - scale * (extent[0] + extent[2]) / 2;
        shiftY = window.top() + window.height() / 2 + scale * (extent[1] + extent[3]) / 2;
    }

    /** The rectangle of the picture to fill, in samples. */
    record Window(double left, double top, double width, double height) {
    }

    static Projection fit(Camera camera, List<Item> items, Window window) {
        return new Projection(camera, items, window);
    }

    /** Puts sample x, sample y and nearness of a point into {@code out[at..at+2]}. */
    void project(double x, double y, double z, double[] out, int at) {
        double px = x - middle.x;
        double py = y - middle.y;
        double pz = z - middle.z;
        double depth = forward.x * px + forward.y * py + forward.z * pz;
        double f = distance == 0 ? 1 : distance / (distance + depth);
        out[at] = shiftX + scale * f * (right.x * px + right.y * py + right.z * pz);
        out[at + 1] = shiftY - scale * f * (up.x * px + up.y * py + up.z * pz);
        out[at + 2] = distance == 0 ? -depth : f / distance;
    }

    /** Depth along {@code forward} from the middle, mm, of a nearness. */
    double depth(double nearness) {
        return distance == 0 ? -nearness : 1 / nearness - distance;
    }

    /** The ray through a sample: a point on it and its direction (unit), as six numbers into {@code out}. */
    void ray(double sampleX, double sampleY, double[] out) {
        double u = (sampleX - shiftX) / scale;
        double v = (shiftY - sampleY) / scale;
        double x = middle.x + u * right.x + v * up.x;
        double y = middle.y + u * right.y + v * up.y;
        double z = middle.z + u * right.z + v * up.z;
        double dx = forward.x;
        double dy = forward.y;
        double dz = forward.z;
        if (distance != 0) {
            dx = distance * forward.x + u * right.x + v * up.x;
            dy = distance * forward.y + u * right.y + v * up.y;
            dz = distance * forward.z + u * right.z + v * up.z;
            double length = Math.sqrt(dx * dx + dy * dy + dz * dz);
            dx /= length;
            dy /= length;
            dz /= length;
        }
        out[0] = x;
        out[1] = y;
        out[2] = z;
        out[3] = dx;
        out[4] = dy;
        out[5] = dz;
    }

    static double[] bounds(List<Item> items) {
        double[] all = null;
        for (Item item : items) {
            double[] box = item.mesh().bounds();
            if (all == null) {
                all = box;
                continue;
            }
            for (int k = 0; k < 3; k++) {
                all[k] = Math.min(all[k], box[k]);
                all[3 + k] = Math.max(all[3 + k], box[3 + k]);
            }
        }
        return all;
    }

    /** Left, bottom, right, top of all vertices in the plane through the middle, mm. */
    private double[] extent(List<Item> items) {
        double[] extent = {Double.MAX_VALUE, Double.MAX_VALUE, -Double.MAX_VALUE, -Double.MAX_VALUE};
        for (Item item : items) {
            double[] xyz = item.mesh().xyz();
            for (int i = 0; i < xyz.length; i += 3) {
                double px = xyz[i] - middle.x;
                double py = xyz[i + 1] - middle.y;
                double pz = xyz[i + 2] - middle.z;
                double depth = forward.x * px + forward.y * py + forward.z * pz;
                double f = distance == 0 ? 1 : distance / (distance + depth);
                double u = f * (right.x * px + right.y * py + right.z * pz);
                double v = f * (up.x * px + up.y * py + up.z * pz);
                extent[0] = Math.min(extent[0], u);
                extent[1] = Math.min(extent[1], v);
                extent[2] = Math.max(extent[2], u);
                extent[3] = Math.max(extent[3], v);
            }
        }
        return extent;
    }

    private static double square(double x) {
        return x * x;
    }
}
