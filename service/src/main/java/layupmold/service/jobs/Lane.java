package layupmold.service.jobs;

/** Small parts and large ones queue apart, so that a heavy one never holds up the light. */
public enum Lane {
    LIGHT, HEAVY
}
