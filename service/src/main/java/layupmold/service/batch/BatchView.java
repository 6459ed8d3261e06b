package layupmold.service.batch;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import layupmold.api.batch.BatchLinks;
import layupmold.api.batch.BatchPart;
import layupmold.api.batch.BatchResource;
import layupmold.api.batch.BatchStatus;
import layupmold.api.batch.Likeness;
import layupmold.api.batch.LikenessKind;
import layupmold.api.mold.MoldStatus;
import layupmold.service.http.MoldView;
import layupmold.service.jobs.MoldRow;
import layupmold.service.jobs.MoldTable;
import org.springframework.stereotype.Component;

/** Suits as the contract shows them: where they stand follows from their molds. */
@Component
public class BatchView {

    private final BatchTable batches;
    private final MoldTable molds;

    BatchView(BatchTable batches, MoldTable molds) {
        this.batches = batches;
        this.molds = molds;
    }

    /** A part with its mold, or null where there is none (yet). */
    public record PartAndMold(PartRow part, MoldRow mold) {
    }

    public static String path(String id) {
        return "/v1/batches/" + id;
    }

    public List<PartAndMold> parts(BatchRow batch) {
        List<PartRow> parts = batches.parts(batch.id());
        Map<String, MoldRow> byId = new HashMap<>();
        molds.findAll(parts.stream().map(PartRow::mold).filter(Objects::nonNull).toList())
                .forEach(mold -> byId.put(mold.id(), mold));
        return parts.stream().map(part -> new PartAndMold(part, byId.get(part.mold()))).toList();
    }

    public BatchResource resource(BatchRow batch) {
        return resource(batch, parts(batch));
    }

    /** The suit with these of its {@link #parts}, for whoever has read them. */
    BatchResource resource(BatchRow batch, List<PartAndMold> read) {
        List<BatchPart> parts = new ArrayList<>();
        for (PartAndMold part : read) {
            parts.add(part(batch, part));
        }
        BatchStatus status = status(batch, parts);
        double percent = parts.stream().mapToInt(part -> part.status().isFinal() ? 100 : part.percent()).average().orElse(0);
        String self = path(batch.id());
        return new BatchResource(batch.id(), status, (int) percent, batch.title(), parts, batch.createdAt(),
                batch.expiresAt(), new BatchLinks(self, self + "/events", status.isFinal() ? self + "/bundle.zip" : null,
                        batch.sorted() ? self + "/summary.json" : null, batch.sorted() ? self + "/summary.html" : null,
                        status.isFinal() ? self + "/kit.json" : null));
    }

    private static BatchPart part(BatchRow batch, PartAndMold both) {
        PartRow part = both.part();
        MoldRow mold = both.mold();
        MoldStatus status = mold != null ? mold.status() : batch.sorted() ? MoldStatus.CANCELLED : MoldStatus.QUEUED;
        return new BatchPart(part.name(), part.file(), part.mirrorOf(), part.quantity(), status,
                mold == null ? null : mold.stage(), mold == null ? 0 : mold.percent(), likeness(part), part.note(),
                mold == null ? null : MoldView.path(mold.id()), mold == null ? null : MoldView.problem(mold));
    }

    static Likeness likeness(PartRow part) {
        PartRow.Like like = part.like();
        return like == null ? null : new Likeness(like.mirrored() ? LikenessKind.MIRRORED : LikenessKind.SAME,
                like.name(), like.deviationMm());
    }

    private static BatchStatus status(BatchRow batch, List<BatchPart> parts) {
        if (!batch.sorted()) {
            return BatchStatus.SORTING;
        }
        if (parts.stream().anyMatch(part -> !part.status().isFinal())) {
            return BatchStatus.RUNNING;
        }
        return parts.stream().allMatch(part -> part.status() == MoldStatus.DONE)
                ? BatchStatus.DONE : BatchStatus.INCOMPLETE;
    }
}
