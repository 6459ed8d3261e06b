package layupmold.service.jobs;

/**
 * Work of the thread that creates this, which others may stop at any time. An interrupt reaches it only while it
 * computes: one that came while it writes would close the database's file.
 */
final class Interruptible {

    private final Thread worker = Thread.currentThread();
    private boolean computing;
    private boolean stopped;

    /** Stops the work, now or as soon as it computes. */
    synchronized void stop() {
        stopped = true;
        if (computing) {
            worker.interrupt();
        }
    }

    /** To be called by the worker: what follows may be interrupted. */
    synchronized void compute() {
        computing = true;
        if (stopped) {
            worker.interrupt();
        }
    }

    /** To be called by the worker: what follows may not be interrupted, and no interrupt is left over. */
    synchronized void pause() {
        computing = false;
        Thread.interrupted();
    }
}
