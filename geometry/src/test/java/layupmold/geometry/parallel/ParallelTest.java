package layupmold.geometry.parallel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.concurrent.CancellationException;
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
