package layupmold.service.jobs;

import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.Optional;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.MoldPipeline;
import layupmold.geometry.Progress;
import layupmold.geometry.congruence.Congruence;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.recipe.Recipe;
import layupmold.service.making.MoldMaker;
import layupmold.service.store.Blob;
import layupmold.service.store.BlobStore;
import org.springframework.stereotype.Component;

/** Makes a mold as its row asks: of its own part, or of a congruent one and then carried over. */
@Component
public class MoldMaking {

    private final MoldMaker maker;
    private final BlobStore store;
    private final LikeTable likes;

    MoldMaking(MoldMaker maker, BlobStore store, LikeTable likes) {
        this.maker = maker;
        this.store = store;
        this.likes = likes;
    }

    /** The same row gives the same bytes, however it came to its files the first time. */
    public MoldOutcome make(MoldRow mold, Recipe recipe, Progress progress) throws IOException {
        Optional<Like> like = likes.find(mold.id());
        Blob part = like.map(Like::part).orElse(mold.part());
        String fileName = like.map(Like::partFile).orElse(mold.partName());
        MoldOutcome outcome;
        try {
            outcome = maker.make(read(part), fileName, recipe, progress);
        } catch (Rejection rejection) {
            outcome = new MoldOutcome.Rejected(rejection.finding(), List.of(rejection.finding()));
        }
        return like.isPresent() ? carry(outcome, like.get()) : outcome;
    }

    MoldOutcome carry(MoldOutcome made, Like like) {
        return MoldPipeline.carry(made, like.map(), like.note(Congruence.DEFAULT_TOLERANCE_MM));
    }

    private byte[] read(Blob part) throws IOException {
        try (InputStream in = store.open(part.key())) {
            return in.readAllBytes();
        }
    }
}
