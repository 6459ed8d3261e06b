package layupmold.service.jobs;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import layupmold.api.ContractJson;
import layupmold.api.mold.MoldStatus;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.finding.Finding;
import layupmold.service.making.MoldPackager;
import layupmold.service.making.ReportMapping;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.recipe.AcceptedRecipe;
import layupmold.service.recipe.RecipeReader;
import layupmold.service.settings.JobSettings;
import layupmold.service.settings.StoreSettings;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.slf4j.MDC;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Component;

/**
 * Makes one mold. May be called again for the same mold at any time, even while an earlier call still hangs somewhere:
 * only the latest attempt's result is kept, and a finished mold is left alone.
 */
@Component
class MoldWorker implements QueuedWork {

    private static final Logger LOG = LoggerFactory.getLogger(MoldWorker.class);
    /** How soon a mold that waits for a congruent part's mold looks again. */
    private static final Duration UNTIL_NEXT_LOOK = Duration.ofMillis(500);

    private final MoldTable molds;
    private final LikeTable likes;
    private final MoldMaking making;
    private final MoldPackager packager;
    private final RecipeReader recipes;
    private final Deadlines deadlines;
    private final ApplicationEventPublisher events;
    private final JobSettings settings;
    private final StoreSettings keeping;
    private final Clock clock;
    private final Stopping stopping;

    MoldWorker(MoldTable molds, LikeTable likes, MoldMaking making, MoldPackager packager, RecipeReader recipes,
            Deadlines deadlines, ApplicationEventPublisher events, JobSettings settings, StoreSettings keeping,
            Clock clock, Stopping stopping) {
        this.molds = molds;
        this.likes = likes;
        this.making = making;
        this.packager = packager;
        this.recipes = recipes;
        this.deadlines = deadlines;
        this.events = events;
        this.settings = settings;
        this.keeping = keeping;
        this.clock = clock;
        this.stopping = stopping;
    }

    @Override
    public Kind kind() {
        return Kind.MAKE_MOLD;
    }

    @Override
    public Optional<Duration> run(String id) {
        Optional<MoldRow> like = likes.find(id).flatMap(found -> molds.find(found.mold()));
        if (like.isPresent() && !like.get().status().isFinal()) {
            return Optional.of(UNTIL_NEXT_LOOK);
        }
        work(id, like);
        return Optional.empty();
    }

    private void work(String id, Optional<MoldRow> like) {
        Optional<MoldRow> begun = molds.begin(id, clock.instant());
        if (begun.isEmpty()) {
            return;
        }
        MoldRow mold = begun.get();
        MDC.put("mold", id);
        JobProgress progress = new JobProgress(molds, events, mold, stopping::isHandingBack);
        stopping.began(progress);
        try (Deadlines.Deadline deadline = deadlines.start(() -> timeIsUp(mold, progress))) {
            if (mold.attempt() > settings.maxTries()) {
                end(mold, MoldStatus.FAILED, givenUp(mold, settings.maxTries(),
                        "ended with the process every time"));
            } else if (like.isPresent() && like.get().status() == MoldStatus.FAILED) {
                end(mold, MoldStatus.FAILED, asTheOther(mold, like.get()));
            } else {
                make(mold, progress);
            }
        } catch (CancellationException stopped) {
            afterStop(mold, progress, stopped);
        } catch (Exception | LinkageError | VirtualMachineError e) {
            afterFailure(mold, progress, e);
        } finally {
            stopping.ended(progress);
            events.publishEvent(new MoldChanged(id));
            MDC.remove("mold");
        }
    }

    /** Molds that wait for this one come first: once it is done, nobody need look after them. */
    private void make(MoldRow mold, JobProgress progress) throws IOException {
        AcceptedRecipe recipe = recipes.readStored(mold.recipeJson());
        MoldOutcome outcome;
        try {
            outcome = making.make(mold, recipe.geometry(), progress);
        } finally {
            progress.computed();
        }
        progress.at("write", 0.95);
        for (String twin : likes.waitingFor(mold.id())) {
            Optional<MoldRow> row = molds.find(twin);
            Optional<Like> like = likes.find(twin);
            if (row.isPresent() && like.isPresent()) {
                keep(row.get(), recipes.readStored(row.get().recipeJson()), making.carry(outcome, like.get()));
                events.publishEvent(new MoldChanged(twin));
            }
        }
        keep(mold, recipe, outcome);
        progress.stageEnded();
    }

    private void keep(MoldRow mold, AcceptedRecipe recipe, MoldOutcome outcome) throws IOException {
        if (outcome instanceof MoldOutcome.Rejected rejected) {
            end(mold, MoldStatus.REJECTED, rejection(mold, rejected));
            return;
        }
        MoldFiles files = packager.write((MoldOutcome.Mold) outcome, recipe, mold.part().key());
        Instant now = clock.instant();
        if (molds.finish(mold.id(), mold.attempt(), files, now, keeping.expiry(now))) {
            LOG.info("mold made of {} bytes", mold.part().bytes());
            events.publishEvent(MoldEnded.of(mold, MoldStatus.DONE, null, now));
        }
    }

    /** A job that was stopped while its mold is still asked for goes back into the queue. */
    private void afterStop(MoldRow mold, JobProgress progress, CancellationException stopped) {
        boolean nodeStops = stopping.isHandingBack();
        if (molds.handBack(mold.id(), mold.attempt(), !nodeStops)) {
            LOG.info("handed back in stage {}", progress.stage());
            throw nodeStops ? new HandBack() : stopped;
        }
        LOG.info("mold is no longer asked for, stopped in stage {}", progress.stage());
    }

    private void afterFailure(MoldRow mold, JobProgress progress, Throwable e) {
        LOG.warn("attempt {} failed in stage {}", mold.attempt(), progress.stage(), e);
        if (e instanceof OutOfMemoryError) {
            end(mold, MoldStatus.FAILED, new ProblemException(ProblemKind.OUT_OF_MEMORY,
                    "The memory ran out in stage " + progress.stage() + ".", self(mold), List.of(), List.of()));
        } else if (mold.attempt() >= settings.maxTries()) {
            end(mold, MoldStatus.FAILED, givenUp(mold, mold.attempt(),
                    "failed last in stage " + progress.stage() + " (" + e.getClass().getSimpleName() + ")"));
        } else {
            molds.handBack(mold.id(), mold.attempt(), true);
            throw new IllegalStateException("attempt " + mold.attempt() + " of mold " + mold.id() + " failed", e);
        }
    }

    private void timeIsUp(MoldRow mold, JobProgress progress) {
        end(mold, MoldStatus.FAILED, new ProblemException(ProblemKind.TIME_LIMIT,
                "The limit of " + settings.timeLimit().toSeconds() + " s passed in stage " + progress.stage() + ".",
                self(mold), List.of(), List.of()));
        progress.stop();
    }

    private void end(MoldRow mold, MoldStatus status, ProblemException problem) {
        String json = new String(ContractJson.write(problem.problem()), StandardCharsets.UTF_8);
        Instant now = clock.instant();
        if (molds.end(mold.id(), mold.attempt(), status, json, now, keeping.expiry(now))) {
            LOG.info("no mold: {}", problem.getMessage());
            events.publishEvent(MoldEnded.of(mold, status, problem.problem(), now));
            events.publishEvent(new MoldChanged(mold.id()));
        }
    }

    private static ProblemException rejection(MoldRow mold, MoldOutcome.Rejected rejected) {
        List<Finding> findings = rejected.findings().contains(rejected.reason())
                ? rejected.findings() : List.of(rejected.reason());
        return new ProblemException(ProblemKind.PART_REJECTED, rejected.reason().message(), self(mold), List.of(),
                ReportMapping.REPORTS.toContract(findings));
    }

    /** The work was the same, so the end is. */
    private static ProblemException asTheOther(MoldRow mold, MoldRow other) {
        return new ProblemException(ProblemKind.GIVEN_UP, "The part is congruent to one whose mold failed; see "
                + self(other) + ".", self(mold), List.of(), List.of());
    }

    private static ProblemException givenUp(MoldRow mold, int tries, String how) {
        return new ProblemException(ProblemKind.GIVEN_UP,
                "The work was begun " + tries + " times and " + how + ".", self(mold), List.of(), List.of());
    }

    private static String self(MoldRow mold) {
        return "/v1/molds/" + mold.id();
    }
}
