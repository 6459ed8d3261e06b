package layupmold.samples;

import java.io.IOException;
import java.io.PrintStream;
import java.net.URI;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import layupmold.api.farm.Lease;
import layupmold.api.farm.LeaseItem;
import layupmold.api.farm.LeaseRequest;
import layupmold.api.recipe.PrintMaterial;
import layupmold.samples.client.FarmClient;
import layupmold.samples.client.ServiceProblem;

/**
 * A printer's agent: takes plate after plate, "prints" each by saving it to a folder, and ends when nothing that fits
 * waits. Arguments: service address, folder, bed size in mm, material, seconds a print takes. LAYUPMOLD_KEY is a key with
 * the scope farm, where the service asks for one.
 */
public final class FarmAgent {

    private final FarmClient farm;
    private final LeaseRequest printer;
    private final Path folder;
    private final Duration printing;
    private final PrintStream out;

    FarmAgent(FarmClient farm, LeaseRequest printer, Path folder, Duration printing, PrintStream out) {
        this.farm = farm;
        this.printer = printer;
        this.folder = folder;
        this.printing = printing;
        this.out = out;
    }

    public static void main(String[] arguments) throws InterruptedException {
        if (arguments.length != 5) {
            System.err.println("usage: FarmAgent <service> <folder> <bed mm> <material> <seconds>");
            System.exit(2);
        }
        double bed = Double.parseDouble(arguments[2]);
        LeaseRequest printer = new LeaseRequest("agent-" + ProcessHandle.current().pid(), bed, bed, bed,
                List.of(PrintMaterial.valueOf(arguments[3].toUpperCase(Locale.ROOT))), null);
        FarmClient farm = new FarmClient(URI.create(arguments[0]), System.getenv("LAYUPMOLD_KEY"));
        try {
            new FarmAgent(farm, printer, Path.of(arguments[1]), Duration.ofSeconds(Long.parseLong(arguments[4])),
                    System.out).run();
        } catch (IOException | ServiceProblem e) {
            System.err.println("The agent stops: " + e.getMessage());
            System.exit(1);
        }
    }

    /** @return plates printed */
    int run() throws IOException, InterruptedException {
        int plates = 0;
        for (Optional<Lease> next = farm.lease(printer); next.isPresent(); next = farm.lease(printer)) {
            Lease lease = next.get();
            out.printf("%s: plate %s with %s%n", printer.agent(), lease.id(),
                    lease.items().stream().map(LeaseItem::name).toList());
            if (print(lease)) {
                plates++;
            }
        }
        out.printf("%s: nothing more that fits, %d plates printed%n", printer.agent(), plates);
        return plates;
    }

    /** Whoever loses a lease, for instance by sleeping too long, leaves the plate to another agent. */
    private boolean print(Lease lease) throws IOException, InterruptedException {
        try {
            farm.download(lease.plate(), folder.resolve(lease.id() + ".3mf"));
        } catch (IOException e) {
            farm.failed(lease, "the plate could not be fetched or saved: " + e.getMessage());
            throw e;
        }
        try {
            Lease held = lease;
            for (Instant end = Instant.now().plus(printing); Instant.now().isBefore(end); ) {
                Duration half = Duration.between(Instant.now(), held.expiresAt()).dividedBy(2);
                Duration left = Duration.between(Instant.now(), end);
                Thread.sleep(Math.max(1, (left.compareTo(half) < 0 ? left : half).toMillis()));
                held = farm.renew(held);
            }
            farm.done(held);
            return true;
        } catch (ServiceProblem lost) {
            if (lost.problem().status() != 409) {
                throw lost;
            }
            out.printf("%s: lost plate %s%n", printer.agent(), lease.id());
            return false;
        }
    }
}
