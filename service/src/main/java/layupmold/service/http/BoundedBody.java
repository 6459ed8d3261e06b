package layupmold.service.http;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;

/** A request's body that ends with a problem when it grows too long or takes too long. */
final class BoundedBody extends FilterInputStream {

    private final long maxBytes;
    private final long deadline;
    private long read;

    BoundedBody(InputStream body, long maxBytes) {
        this(body, maxBytes, Long.MAX_VALUE / 2);
    }

    /**
     * @param maxBytes most bytes to read
     * @param limitNanos time for all of it, from now
     */
    BoundedBody(InputStream body, long maxBytes, long limitNanos) {
        super(body);
        this.maxBytes = maxBytes;
        this.deadline = System.nanoTime() + limitNanos;
    }

    @Override
    public int read() throws IOException {
        int value = super.read();
        count(value < 0 ? 0 : 1);
        return value;
    }

    @Override
    public int read(byte[] into, int from, int length) throws IOException {
        int count = super.read(into, from, length);
        count(Math.max(count, 0));
        return count;
    }

    @Override
    public long skip(long count) throws IOException {
        long skipped = super.skip(count);
        count(skipped);
        return skipped;
    }

    private void count(long more) {
        read += more;
        if (read > maxBytes) {
            throw tooLarge(maxBytes);
        }
        if (System.nanoTime() - deadline > 0) {
            throw new ProblemException(ProblemKind.UPLOAD_TOO_SLOW, "The body did not arrive in time.");
        }
    }

    static ProblemException tooLarge(long maxBytes) {
        return new ProblemException(ProblemKind.PART_TOO_LARGE, "At most " + maxBytes + " bytes are taken.");
    }
}
