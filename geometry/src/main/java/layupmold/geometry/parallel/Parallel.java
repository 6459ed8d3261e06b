package layupmold.geometry.parallel;

import java.util.concurrent.CancellationException;
import java.util.concurrent.ForkJoinPool;
import java.util.concurrent.ForkJoinWorkerThread;
import java.util.concurrent.atomic.AtomicInteger;
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
        // Each thread takes the next range, for a stream would deal them out by the index, and dear ones often lie together.
        AtomicInteger next = new AtomicInteger();
        IntStream.range(0, Math.min(chunks, threads())).parallel().forEach(thread -> {
            for (int c = next.getAndIncrement(); c < chunks; c = next.getAndIncrement()) {
                body.run(c, c * grain, Math.min(n, (c + 1) * grain));
            }
        });
    }

    /** Threads that work on a stream begun here: those of the pool, and the caller where it is not one of them. */
    private static int threads() {
        return Thread.currentThread() instanceof ForkJoinWorkerThread worker ? worker.getPool().getParallelism()
                : ForkJoinPool.getCommonPoolParallelism() + 1;
    }

    /** Runs the tasks side by side; returns when all ran. They may use this class in turn. */
    public static void all(Runnable... tasks) {
        stopIfInterrupted();
        IntStream.range(0, tasks.length).parallel().forEach(i -> tasks[i].run());
    }

    /** For long loops on one thread, which begin nothing here. */
    public static void stopIfInterrupted() {
        if (Thread.currentThread().isInterrupted()) {
            throw new CancellationException("interrupted");
        }
    }
}
