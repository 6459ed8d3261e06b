package layupmold.service.batch;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.Deflater;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import layupmold.api.ContractJson;
import layupmold.api.batch.BundleContents;
import layupmold.api.batch.BundlePart;
import layupmold.api.batch.SuitSummary;
import layupmold.api.mold.MoldStatus;
import layupmold.service.http.MoldView;
import layupmold.service.jobs.MoldRow;
import layupmold.service.store.Blob;
import layupmold.service.store.BlobStore;
import org.springframework.stereotype.Component;

/** A finished suit as one zip, written while it is sent: never in memory, never on disk. */
@Component
public class SuitBundle {

    private static final LocalDateTime ALWAYS = LocalDateTime.of(2000, 1, 1, 0, 0);

    private final BatchView view;
    private final SuitSummaries summaries;
    private final BlobStore store;

    SuitBundle(BatchView view, SuitSummaries summaries, BlobStore store) {
        this.view = view;
        this.summaries = summaries;
        this.store = store;
    }

    /**
     * {@code contents.json}, {@code summary.json}, {@code summary.html}, and a folder a part: {@code mold.stl}, {@code
     * mold.3mf} and {@code report.json}, or {@code problem.json}. A part that another one's mold serves has its report
     * alone; the contents list says whose mold it is.
     */
    public void write(BatchRow batch, OutputStream out) throws IOException {
        List<BatchView.PartAndMold> parts = view.parts(batch);
        ZipOutputStream zip = new ZipOutputStream(out);
        zip.setLevel(Deflater.BEST_SPEED);
        SuitSummary summary = summaries.of(batch);
        put(zip, "contents.json", ContractJson.write(contents(batch, parts)));
        put(zip, "summary.json", ContractJson.write(summary));
        put(zip, "summary.html", SuitPage.html(summary).getBytes(StandardCharsets.UTF_8));
        for (BatchView.PartAndMold part : parts) {
            MoldRow mold = part.mold();
            for (String file : files(part, parts)) {
                if (file.equals("problem.json")) {
                    put(zip, part.part().name() + "/" + file, ContractJson.write(MoldView.problem(mold)));
                } else {
                    put(zip, part.part().name() + "/" + file, blob(mold, file));
                }
            }
        }
        zip.finish();
    }

    private BundleContents contents(BatchRow batch, List<BatchView.PartAndMold> parts) {
        List<BundlePart> list = new ArrayList<>();
        for (BatchView.PartAndMold both : parts) {
            PartRow part = both.part();
            String moldIn = isDone(both) ? servedBy(both, parts) : null;
            list.add(new BundlePart(part.name(), part.quantity(),
                    both.mold() == null ? MoldStatus.CANCELLED : both.mold().status(), BatchView.likeness(part),
                    moldIn, files(both, parts).stream().map(file -> part.name() + "/" + file).toList()));
        }
        return new BundleContents(BatchView.path(batch.id()), batch.title(), list);
    }

    private static List<String> files(BatchView.PartAndMold both, List<BatchView.PartAndMold> parts) {
        if (isDone(both)) {
            return servedBy(both, parts).equals(both.part().name())
                    ? List.of("mold.stl", "mold.3mf", "report.json") : List.of("report.json");
        }
        return both.mold() == null || both.mold().problemJson() == null ? List.of() : List.of("problem.json");
    }

    /** Name of the part in whose folder this part's mold is. */
    private static String servedBy(BatchView.PartAndMold both, List<BatchView.PartAndMold> parts) {
        PartRow.Like like = both.part().like();
        boolean shared = like != null && !like.mirrored() && parts.stream()
                .anyMatch(other -> other.part().name().equals(like.name()) && isDone(other));
        return shared ? like.name() : both.part().name();
    }

    private static boolean isDone(BatchView.PartAndMold both) {
        return both.mold() != null && both.mold().status() == MoldStatus.DONE;
    }


    private static Blob blob(MoldRow mold, String file) {
        return switch (file) {
            case "mold.stl" -> mold.files().stl();
            case "mold.3mf" -> mold.files().threeMf();
            default -> mold.files().report();
        };
    }

    private void put(ZipOutputStream zip, String name, Blob blob) throws IOException {
        begin(zip, name);
        try (InputStream in = store.open(blob.key())) {
            in.transferTo(zip);
        }
    }

    private static void put(ZipOutputStream zip, String name, byte[] bytes) throws IOException {
        begin(zip, name);
        zip.write(bytes);
    }

    private static void begin(ZipOutputStream zip, String name) throws IOException {
        ZipEntry entry = new ZipEntry(name);
        entry.setTimeLocal(ALWAYS);
        zip.putNextEntry(entry);
    }

    /** The summary as a page. */
    public String page(BatchRow batch) throws IOException {
        return SuitPage.html(summaries.of(batch));
    }
}
