package layupmold.geometry.testparts;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import layupmold.geometry.shape.FlatMesh;
import layupmold.geometry.shape.Outline;
import layupmold.geometry.shape.PlanarDomain;
import layupmold.geometry.shape.PointSampler;
import layupmold.geometry.shape.ScalarField;
import layupmold.geometry.shape.ThinShell;

/** Seeded random thin shells with the truth about every triangle: same seed, same bytes. */
public final class RandomShells {

    private RandomShells() {
    }

    /** A shell with everything chosen by {@code seed}; see {@link ShellSpec#random}. */
    public static TestPart shell(long seed) {
        return shell(ShellSpec.random(seed));
    }

    /** A shell as asked, what the specification leaves open being chosen by its seed. */
    public static TestPart shell(ShellSpec spec) {
        SplittableRandom random = new SplittableRandom(spec.seed());
        BaseShape.Blank blank = spec.base().make(random.split(), spec.spacingMm());
        double greatest = Math.min(spec.greatestThicknessMm(), 0.45 * blank.leastRadiusMm());
        double least = Math.min(spec.leastThicknessMm(), greatest);
        PlanarDomain domain = blank.domain(openings(spec, blank, greatest, random.split()));
        ScalarField wall = unevenWall(least, greatest, random.split());
        List<Bump> bumps = bumps(spec, domain, blank.leastRadiusMm() - greatest, random.split());
        ScalarField thickness = (u, v) -> wall.at(u, v) + Bump.highest(bumps, domain, u, v);

        // An edge of length h lies h² / 8r inside its arc; keep that well below the wall.
        double coarsest = Math.min(4 * spec.spacingMm(), Math.sqrt(2 * blank.leastRadiusMm() * least));
        FlatMesh outer = FlatMesh.of(domain, innerPoints(spec, domain, List.of(), coarsest, random.split()));
        FlatMesh inner = FlatMesh.of(domain, innerPoints(spec, domain, bumps, coarsest, random.split()));
        ThinShell shell = ThinShell.of(new ThinShell.Plan(
                blank.surface(), ScalarField.constant(0), thickness, spec.rim().section(), outer, inner));
        return Disguise.apply(spec, shell, least, greatest, random.split());
    }

    private static List<double[]> openings(
            ShellSpec spec, BaseShape.Blank blank, double thickness, SplittableRandom random) {
        List<double[]> openings = new ArrayList<>();
        PlanarDomain whole = blank.domain(List.of());
        double[] box = whole.bounds();
        double least = 2 * thickness + 2;
        for (int attempt = 0; attempt < 400 && openings.size() < spec.openings(); attempt++) {
            double a = random.nextDouble(least, least + 12);
            double b = random.nextDouble(least, a + 1e-9);
            double u = random.nextDouble(box[0], box[2]);
            double v = random.nextDouble(box[1], box[3]);
            double turn = random.nextDouble(0, 180);
            PlanarDomain sofar = blank.domain(openings);
            double clear = a + 2.5 * thickness + 4 * spec.spacingMm();
            if (sofar.contains(u, v) && sofar.distanceToLoops(u, v) > clear) {
                double tip = b * b / a;
                openings.add(Outline.ellipse(u, v, a, b, turn, Math.min(spec.spacingMm(), tip)));
            }
        }
        return openings;
    }

    private static ScalarField unevenWall(double least, double greatest, SplittableRandom random) {
        double[] k = new double[6];
        for (int i = 0; i < 6; i++) {
            k[i] = i % 3 == 2 ? random.nextDouble(0, 6) : random.nextDouble(-0.08, 0.08);
        }
        return (u, v) -> {
            double wave = Math.sin(k[0] * u + k[1] * v + k[2]) * Math.sin(k[3] * u + k[4] * v + k[5]);
            return least + (greatest - least) * (0.5 + 0.5 * wave);
        };
    }

    private static List<Bump> bumps(ShellSpec spec, PlanarDomain domain, double room, SplittableRandom random) {
        List<Bump> bumps = new ArrayList<>();
        double[] box = domain.bounds();
        for (int attempt = 0; attempt < 400 && bumps.size() < spec.ribs() + spec.bosses(); attempt++) {
            double u = random.nextDouble(box[0], box[2]);
            double v = random.nextDouble(box[1], box[3]);
            boolean rib = bumps.size() < spec.ribs();
            double length = rib ? random.nextDouble(15, 60) : 0;
            double angle = random.nextDouble(0, Math.PI);
            double height = Math.min(random.nextDouble(1.5, 6), 0.4 * room);
            double halfWidth = rib ? random.nextDouble(0.8, 2.5) : random.nextDouble(2, 6);
            if (domain.contains(u, v)) {
                bumps.add(new Bump(u, v, u + length * Math.cos(angle), v + length * Math.sin(angle), halfWidth,
                        random.nextDouble(0.4, 1.5), height));
            }
        }
        return bumps;
    }

    private static double[] innerPoints(
            ShellSpec spec, PlanarDomain domain, List<Bump> bumps, double greatest, SplittableRandom random) {
        double h = spec.spacingMm();
        PointSampler sampler = new PointSampler(domain, h / 2);
        for (Bump bump : bumps) {
            bump.sample(sampler, h);
        }
        double[] box = domain.bounds();
        double denseU = random.nextDouble(box[0], box[2]);
        double denseV = random.nextDouble(box[1], box[3]);
        double coarsest = Math.max(h, random.nextDouble(0.3, 1) * greatest);
        ScalarField size = (u, v) -> Math.min(coarsest, Math.min(
                h + 0.12 * Math.hypot(u - denseU, v - denseV), h + 0.35 * domain.distanceToLoops(u, v)));
        sampler.fill(size, h, coarsest, 0.4, random.split());
        if (spec.slivers()) {
            addCloseNeighbours(sampler, random);
        }
        return sampler.points();
    }

    /** Points a hair from others: each gives slivers and needles around it. */
    private static void addCloseNeighbours(PointSampler sampler, SplittableRandom random) {
        double[] points = sampler.points();
        for (int i = 0; i < points.length / 40; i++) {
            int p = 2 * random.nextInt(points.length / 2);
            double angle = random.nextDouble(0, 2 * Math.PI);
            double apart = Math.pow(10, random.nextDouble(-2.3, -0.5));
            sampler.add(points[p] + apart * Math.cos(angle), points[p + 1] + apart * Math.sin(angle), 0.5 * apart);
        }
    }
}
