package layupmold.geometry.parallel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.concurrent.BrokenBarrierException;
import java.util.concurrent.CancellationException;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ForkJoinPool;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.concurrent.atomic.AtomicIntegerArray;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

class ParallelTest {

    @AfterEach
    void clear() {
        Thread.interrupted();
    }

    @Test
    void everyIndexIsInOneRange() {
        AtomicIntegerArray seen = new AtomicIntegerArray(1003);
        Parallel.forRanges(1003, 10, (chunk, from, to) -> {
            assertEquals(chunk * 10, from);
            for (int i = from; i < to; i++) {
                seen.incrementAndGet(i);
            }
        });
        for (int i = 0; i < seen.length(); i++) {
            assertEquals(1, seen.get(i));
        }
    }

    /** Dear work lies together, such as the flange at the end of a sheet: no thread may be dealt all of it. */
    @Test
    void neighbouringRangesRunSideBySide() throws Exception {
        CyclicBarrier both = new CyclicBarrier(2);
        ForkJoinPool pool = new ForkJoinPool(2);
        try {
            pool.submit(() -> Parallel.forRanges(100, 1, (chunk, from, to) -> {
                if (chunk < 2) {
                    meet(both);
                }
            })).get(20, TimeUnit.SECONDS);
        } finally {
            pool.shutdownNow();
        }
    }

    private static void meet(CyclicBarrier both) {
        try {
            both.await(10, TimeUnit.SECONDS);
        } catch (InterruptedException | BrokenBarrierException | TimeoutException e) {
            throw new IllegalStateException("the other range has not begun", e);
        }
    }

    @Test
    void anInterruptedThreadBeginsNothing() {
        AtomicIntegerArray ran = new AtomicIntegerArray(1);
        Thread.currentThread().interrupt();
        assertThrows(CancellationException.class,
                () -> Parallel.forRanges(1, 10, (chunk, from, to) -> ran.incrementAndGet(0)));
        assertThrows(CancellationException.class, () -> Parallel.all(() -> ran.incrementAndGet(0)));
        assertEquals(0, ran.get(0));
        assertTrue(Thread.interrupted(), "whoever called it learns of the interrupt too");
    }
}
