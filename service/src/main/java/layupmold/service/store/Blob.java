package layupmold.service.store;

/**
 * Bytes in the store. The key is their hash, so that equal bytes are kept once and a key never changes its content.
 *
 * @param key hexadecimal SHA-256 of the bytes
 * @param bytes how many
 */
public record Blob(String key, long bytes) {
}
