package layupmold.samples;

import java.io.IOException;
import java.io.PrintStream;
import java.lang.management.ManagementFactory;
import java.lang.management.OperatingSystemMXBean;
import java.lang.management.ThreadMXBean;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * How soon the packaged service is ready: starts it several times, each with a new database, with the class data that the
 * build wrote and without, by turns, and prints the medians from before the process began to the first 200 of its readiness.
 * Before each turn a loop of always the same work tells how fast the machine is just then. Arguments: service jar, output
 * folder, number of starts.
 */
public final class StartTimes {

    private static final int LOOP_STEPS = 1_000_000_000;
    private static final OperatingSystemMXBean MACHINE = ManagementFactory.getOperatingSystemMXBean();

    private StartTimes() {
    }

    public static void main(String[] arguments) throws InterruptedException {
        if (arguments.length != 3) {
            System.err.println("usage: StartTimes <service jar> <output folder> <number of starts>");
            System.exit(2);
        }
        try {
            run(Path.of(arguments[0]), Path.of(arguments[1]).resolve("run-" + ProcessHandle.current().pid()),
                    Integer.parseInt(arguments[2]), System.out);
        } catch (IOException e) {
            System.err.println("The run failed: " + e.getMessage());
            System.exit(1);
        }
    }

    private static void run(Path jar, Path output, int starts, PrintStream out) throws IOException, InterruptedException {
        Loop[] loops = new Loop[starts];
        Start[] shared = new Start[starts];
        Start[] alone = new Start[starts];
        for (int i = 0; i < starts; i++) {
            loops[i] = loop();
            shared[i] = start(jar, ServiceProcess.sharing(jar), output.resolve("shared-" + i));
            alone[i] = start(jar, List.of(), output.resolve("alone-" + i));
            out.printf(Locale.ROOT, "ready after %.2f s with class data, %.2f s without; loop %.2f s, load %.1f%n",
                    shared[i].readyS(), alone[i].readyS(), loops[i].wallS(), MACHINE.getSystemLoadAverage());
        }
        tell(out, "with class data", shared);
        tell(out, "without", alone);
        out.printf(Locale.ROOT, "the machine: a loop of %,d steps took %.2f s in the median, %.2f s of it on a processor%n",
                LOOP_STEPS, median(Arrays.stream(loops).mapToDouble(Loop::wallS).toArray()),
                median(Arrays.stream(loops).mapToDouble(Loop::cpuS).toArray()));
    }

    /** @param readyS wall time until ready, @param cpuS processor time until then */
    private record Start(double readyS, double cpuS) {
    }

    private static Start start(Path jar, List<String> options, Path folder) throws IOException, InterruptedException {
        try (ServiceProcess service = ServiceProcess.start(jar, options, folder)) {
            return new Start(service.readyAfter().toNanos() / 1e9, service.cpu().toNanos() / 1e9);
        }
    }

    private static void tell(PrintStream out, String how, Start[] starts) {
        out.printf(Locale.ROOT, "%s: ready after %.2f s in the median of %d starts (bar: 5 s), %.2f s of processor time%n", how,
                median(Arrays.stream(starts).mapToDouble(Start::readyS).toArray()), starts.length,
                median(Arrays.stream(starts).mapToDouble(Start::cpuS).toArray()));
    }

    /** The same work every time; where it takes longer than on a processor, the machine is busy with other things. */
    private record Loop(double wallS, double cpuS) {
    }

    private static Loop loop() {
        ThreadMXBean threads = ManagementFactory.getThreadMXBean();
        long wall = System.nanoTime();
        long cpu = threads.getCurrentThreadCpuTime();
        long state = 88172645463325252L;
        for (int i = 0; i < LOOP_STEPS; i++) {
            state ^= state << 13;
            state ^= state >>> 7;
            state ^= state << 17;
        }
        if (state == 0) {
            throw new IllegalStateException("a xorshift generator never comes to zero");
        }
        return new Loop((System.nanoTime() - wall) / 1e9, (threads.getCurrentThreadCpuTime() - cpu) / 1e9);
    }

    private static double median(double[] values) {
        Arrays.sort(values);
        return values[values.length / 2];
    }
}
