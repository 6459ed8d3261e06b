package layupmold.geometry.kit;

import java.util.List;
import java.util.Locale;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.MoldPipeline;
import layupmold.geometry.Progress;
import layupmold.geometry.drape.DrapedPly;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.LengthUnit;
import layupmold.geometry.recipe.Recipe;

/**
 * Looks for the largest coupon that prints in time. Each try is a whole mold, so sizes are bracketed, and the time of
 * one coupon tells which others are worth making: it goes with a coupon's plan area.
 */
final class CouponSizes {

    private static final double[] SIZES_MM = {60, 50, 42, 36, 30, 24, 20};
    /** With usual settings about the largest that prints in time. */
    private static final int FIRST = 3;
    /** What flange and walls add to a coupon's side, roughly. */
    private static final double BORDER_MM = 14;

    private final MoldOutcome.Mold part;
    private final DrapedPly ply;
    private final Recipe recipe;
    private final Progress progress;
    /** Minutes that a coupon prints for each mm² of plan, as far as one was made. */
    private double minutesPerMm2;
    private Finding lastRefusal;

    /** @param recipe of the coupon */
    CouponSizes(MoldOutcome.Mold part, DrapedPly ply, Recipe recipe, Progress progress) {
        this.part = part;
        this.ply = ply;
        this.recipe = recipe;
        this.progress = progress;
    }

    /** @throws Rejection if no size gives a mold that prints in time */
    Coupon largest() {
        Coupon best = null;
        int tooLarge = -1;
        int good = SIZES_MM.length;
        int next = FIRST;
        while (next > tooLarge && next < good) {
            Coupon coupon = make(SIZES_MM[next]);
            if (coupon != null) {
                best = coupon;
                good = next;
            } else {
                tooLarge = next;
            }
            next = tooLarge + 1;
            while (next < good && minutesPerMm2 * planMm2(SIZES_MM[next]) > Coupon.MOST_PRINT_MIN) {
                next++;
            }
            if (next == SIZES_MM.length) {
                // Nothing is likely to print in time: the smallest says so.
                next = tooLarge == next - 1 ? next : next - 1;
            }
        }
        if (best == null) {
            throw new Rejection(lastRefusal);
        }
        return best;
    }

    private static double planMm2(double sizeMm) {
        return (sizeMm + BORDER_MM) * (sizeMm + BORDER_MM);
    }

    /** Null where it gives no mold, or one that prints too long. */
    private Coupon make(double size) {
        HardPlace place = HardPlace.find(ply, size);
        TriangleMesh patch = PatchCut.square(part.workpiece().face(), place.centre(), size);
        MoldOutcome outcome = MoldPipeline.make(
                new PartFile(patch, part.report().part().format(), LengthUnit.MM, List.of()), recipe, progress);
        if (outcome instanceof MoldOutcome.Rejected rejected) {
            lastRefusal = inPart(rejected.reason());
            return null;
        }
        MoldOutcome.Mold mold = (MoldOutcome.Mold) outcome;
        double minutes = 60 * mold.report().print().filament().hours();
        minutesPerMm2 = minutes / planMm2(size);
        if (minutes > Coupon.MOST_PRINT_MIN) {
            lastRefusal = tooLong(size, minutes);
            return null;
        }
        return new Coupon(place, part.partToMold().inverse().apply(place.centre()), size, recipe, mold, minutes);
    }

    private static Finding tooLong(double size, double minutes) {
        return Finding.error("kit", "coupon-prints-too-long", String.format(Locale.ROOT,
                "Even a coupon of %.0f mm prints for %.0f minutes.", size, minutes))
                .measured(minutes, Coupon.MOST_PRINT_MIN, "min")
                .advising("Print coarser layers, fewer lines or faster, or choose a place by hand.");
    }

    private Finding inPart(Finding finding) {
        Place place = finding.place();
        return place == null ? finding : finding.at(Place.at(part.partToMold().inverse().apply(place.point())));
    }
}
