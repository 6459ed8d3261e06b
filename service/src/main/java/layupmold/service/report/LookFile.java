package layupmold.service.report;

/**
 * One of the files that show a mold.
 *
 * @param name path below the mold's own
 * @param mediaType what it is
 * @param bytes its content
 */
public record LookFile(String name, String mediaType, byte[] bytes) {
}
