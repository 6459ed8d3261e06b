package layupmold.service.farm;

/** One print on a plate, and where it stands. */
public record PlateCopy(String jobId, int number, String moldId, String name, double xMm, double yMm, int quarterTurns) {
}
