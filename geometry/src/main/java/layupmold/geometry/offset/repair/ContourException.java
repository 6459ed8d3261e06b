package layupmold.geometry.offset.repair;

/** A cell whose surface curves do not close: kept mesh and field disagree there. */
final class ContourException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    private final long cell;

    ContourException(long cell) {
        super("the surface does not close in cell " + cell, null, false, false);
        this.cell = cell;
    }

    long cell() {
        return cell;
    }
}
