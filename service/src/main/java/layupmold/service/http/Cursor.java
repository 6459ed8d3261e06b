package layupmold.service.http;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Base64;
import layupmold.service.jobs.MoldRow;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;

/**
 * Where a list goes on: behind what was made at this time with this identifier. New ones do not shift it.
 *
 * @param time microseconds are kept
 * @param id tells those of the same time apart
 */
record Cursor(Instant time, String id) {

    static final Cursor NEWEST = new Cursor(Instant.parse("9999-01-01T00:00:00Z"), "");

    static String after(MoldRow mold) {
        return after(mold.createdAt(), mold.id());
    }

    static String after(Instant createdAt, String id) {
        long micros = ChronoUnit.MICROS.between(Instant.EPOCH, createdAt);
        return Base64.getUrlEncoder().withoutPadding()
                .encodeToString((micros + " " + id).getBytes(StandardCharsets.UTF_8));
    }

    static Cursor parse(String cursor) {
        try {
            String[] words = new String(Base64.getUrlDecoder().decode(cursor), StandardCharsets.UTF_8).split(" ", 2);
            return new Cursor(Instant.EPOCH.plus(Long.parseLong(words[0]), ChronoUnit.MICROS), words[1]);
        } catch (RuntimeException e) {
            throw new ProblemException(ProblemKind.BAD_REQUEST, "The cursor is not one of ours.");
        }
    }
}
