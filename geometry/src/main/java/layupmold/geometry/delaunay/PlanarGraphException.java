package layupmold.geometry.delaunay;

/** Points and segments that do not form a plane straight-line graph; says which two things clash. */
public final class PlanarGraphException extends RuntimeException {

    /** What is wrong. */
    public enum Kind {
        /** A coordinate is NaN or infinite; {@link #first()} is the point. */
        NOT_FINITE,
        /** Two points coincide: {@link #first()} and {@link #second()}. */
        REPEATED_POINT,
        /** Segment {@link #first()} begins and ends in the same point. */
        NO_LENGTH,
        /** Segment {@link #first()} crosses segment {@link #second()}. */
        CROSSING,
        /** Segment {@link #first()} runs through point {@link #second()}. */
        THROUGH_POINT,
        /** Segments {@link #first()} and {@link #second()} join the same two points. */
        REPEATED_SEGMENT,
        /** All points of a polygon lie on one line; no indices. */
        NO_AREA
    }

    private final Kind kind;
    private final int first;
    private final int second;

    PlanarGraphException(Kind kind, int first, int second, String message) {
        super(message);
        this.kind = kind;
        this.first = first;
        this.second = second;
    }

    public Kind kind() {
        return kind;
    }

    /** Point or segment index as {@link Kind} says, or -1. */
    public int first() {
        return first;
    }

    /** Point or segment index as {@link Kind} says, or -1. */
    public int second() {
        return second;
    }
}
