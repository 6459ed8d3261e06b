package layupmold.geometry.parallel;

import java.util.concurrent.CancellationException;
import java.util.stream.IntStream;

/**
 * Splits index ranges over the current fork-join pool.
 *
 * <p>Work is cut by {@code grain} alone, never by the number of threads, so a caller that keeps one partial result a
 * range and combines them in order gets the same bytes on any machine.
 *
 * <p>A thread that is interrupted begins no more work here but throws {@link CancellationException}, and stays
 * interrupted. So long computations end soon without having to ask.
 */
public final class Parallel {

    /** Work on the indices {@code from} (inclusive) to {@code to} (exclusive), the {@code chunk}-th range. */
    @FunctionalInterface
    public interface RangeBody {
        void run(int chunk, int from, int to);
    }

    private Parallel() {
    }

    /** Number of ranges that {@link #forRanges} makes of {@code n} indices. */
    public static int chunkCount(int n, int grain) {
        return (n + grain - 1) / grain;
    }

    /** Runs {@code body} once a range of at most {@code grain} indices out of {@code 0..n-1}; returns when all ran. */
    public static void forRanges(int n, int grain, RangeBody body) {
        stopIfInterrupted();
        int chunks = chunkCount(n, grain);
        if (chunks <= 1) {
            if (n > 0) {
                body.run(0, 0, n);
            }
            return;
        }
        IntStream.range(0, chunks).parallel()
                .forEach(c -> body.run(c, c * grain, Math.min(n, (c + 1) * grain)));
    }

    /** Runs the tasks side by side; returns when all ran. They may use this class in turn. */
    public static void all(Runnable... tasks) {
        stopIfInterrupted();
        IntStream.range(0, tasks.length).parallel().forEach(i -> tasks[i].run());
    }

    private static void stopIfInterrupted() {
        if (Thread.currentThread().isInterrupted()) {
            throw new CancellationException("interrupted");
        }
    }
}
