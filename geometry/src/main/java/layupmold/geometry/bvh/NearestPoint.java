package layupmold.geometry.bvh;

/** Answer of a nearest-point query, reused between queries by one thread. */
public final class NearestPoint {

    /** Triangle that holds the point, or -1 if none lies within the asked distance. */
    public int triangle;
    /** The point itself. */
    public double x;
    public double y;
    public double z;
    /** Squared distance to the query. */
    public double distanceSquared;

    /** Nodes that a query has yet to look at, and the squared distances of their boxes. */
    final int[] waiting = new int[TriangleBvh.STACK];
    final double[] away = new double[TriangleBvh.STACK];

    /** Begins a search within a distance. */
    public void begin(double withinMm) {
        triangle = -1;
        distanceSquared = withinMm * withinMm;
    }

    public double distance() {
        return Math.sqrt(distanceSquared);
    }
}
