package layupmold.geometry.offset.trim;

/** The folds of a surface could not be cut off; another way has to be taken. */
final class TrimException extends RuntimeException {

    private static final long serialVersionUID = 1;

    private final int triangle;

    TrimException(String message, int triangle) {
        super(message);
        this.triangle = triangle;
    }

    /** A triangle at the place, or -1. */
    int triangle() {
        return triangle;
    }
}
