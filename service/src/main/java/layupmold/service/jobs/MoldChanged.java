package layupmold.service.jobs;

/** Published in this process whenever it has changed a mold. */
public record MoldChanged(String id) {
}
