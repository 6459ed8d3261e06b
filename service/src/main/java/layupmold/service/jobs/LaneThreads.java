package layupmold.service.jobs;

import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ForkJoinPool;
import java.util.concurrent.ForkJoinWorkerThread;
import java.util.function.Supplier;

/**
 * The threads that one lane's molds are made on. The geometry splits its loops over the pool it runs in, so a lane
 * never has more threads at work than these, however many molds are made at once.
 *
 * <p>They give way to the threads that answer requests, where the JVM maps priorities to the system's
 * ({@code -XX:ThreadPriorityPolicy=1}).
 */
final class LaneThreads {

    private final ForkJoinPool pool;

    /** @param molds made at once */
    LaneThreads(String name, int molds) {
        int threads = Math.max(molds, Runtime.getRuntime().availableProcessors());
        pool = new ForkJoinPool(threads, inPool -> thread(name, inPool), null, false);
    }

    private static ForkJoinWorkerThread thread(String name, ForkJoinPool pool) {
        ForkJoinWorkerThread thread = ForkJoinPool.defaultForkJoinWorkerThreadFactory.newThread(pool);
        thread.setName(name + "-" + thread.getPoolIndex());
        thread.setPriority(Thread.MIN_PRIORITY);
        // The default is the system's loader, which does not see into the runnable jar.
        thread.setContextClassLoader(LaneThreads.class.getClassLoader());
        return thread;
    }

    /**
     * Works on one of the threads while the caller waits; what the work throws comes out as it is.
     *
     * @throws HandBack if the caller is interrupted: the node stops and waits no longer
     */
    <T> T run(Supplier<T> work) {
        try {
            return CompletableFuture.supplyAsync(work, pool).get();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new HandBack();
        } catch (ExecutionException e) {
            Throwable thrown = e.getCause();
            if (thrown instanceof RuntimeException unchecked) {
                throw unchecked;
            }
            if (thrown instanceof Error error) {
                throw error;
            }
            throw new CompletionException(thrown);
        }
    }
}
