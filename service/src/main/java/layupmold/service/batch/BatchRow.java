package layupmold.service.batch;

import java.time.Instant;

/**
 * A suit as the database has it.
 *
 * @param sorted whether its parts have been compared and their molds queued
 * @param attempt how often that has begun
 */
public record BatchRow(
        String id, String owner, String title, boolean sorted, int attempt, Instant createdAt, Instant expiresAt) {
}
