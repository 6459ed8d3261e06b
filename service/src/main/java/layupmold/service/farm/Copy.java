package layupmold.service.farm;

/** One print that waits to be taken. */
record Copy(String jobId, int number, String moldId, String name) {
}
