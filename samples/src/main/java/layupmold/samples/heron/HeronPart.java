package layupmold.samples.heron;

import java.util.Locale;
import java.util.function.Supplier;
import layupmold.geometry.mesh.TriangleMesh;

/** The ten parts of the costume. Right-hand parts are the mirror images of the left-hand ones. */
public enum HeronPart {
    MASK("Beak mask", "two eye openings, brows, mouth line and nostrils", Mask::design),
    CROWN("Crown",
            "crest and two plume slots; deliberately undercut: the nape closes in below the widest place, so a"
                    + " one-piece mold locks unless the laminate can be sprung out",
            Crown::design),
    BREAST("Breast shell", "keeled and feathered; larger than a 256 mm bed", Breast::design),
    SHOULDER_LEFT("Left shoulder plate", "scalloped hem, one strap slot", Shoulder::design),
    SHOULDER_RIGHT("Right shoulder plate", "mirror of the left", SHOULDER_LEFT),
    FOREARM_LEFT("Left forearm shell", "half tube with wing feathers and four strap slots", Forearm::design),
    FOREARM_RIGHT("Right forearm shell", "mirror of the left", FOREARM_LEFT),
    SHIN_LEFT("Left shin shell", "knee to ankle, scuted, four strap slots; longer than a 256 mm bed", Shin::design),
    SHIN_RIGHT("Right shin shell", "mirror of the left", SHIN_LEFT),
    TAIL("Tail fan", "seven arched feathers, scalloped hem, two bolt holes", TailFan::design);

    private final String title;
    private final String description;
    private final Supplier<PartDesign> design;
    private final HeronPart mirrorOf;

    HeronPart(String title, String description, Supplier<PartDesign> design) {
        this.title = title;
        this.description = description;
        this.design = design;
        this.mirrorOf = null;
    }

    HeronPart(String title, String description, HeronPart mirrorOf) {
        this.title = title;
        this.description = description;
        this.design = mirrorOf.design;
        this.mirrorOf = mirrorOf;
    }

    /** Lower case with hyphens: names files and manifest entries. */
    public String slug() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    public String title() {
        return title;
    }

    public String description() {
        return description;
    }

    /** The part this one mirrors, or null. */
    public HeronPart mirrorOf() {
        return mirrorOf;
    }

    /** Makes the mesh: closed, outward, millimetres, y up, facing +z. A second or so. */
    public TriangleMesh mesh() {
        if (mirrorOf != null) {
            return PartDesign.mirrored(mirrorOf.mesh());
        }
        return design.get().build(ordinal() + 1).mesh();
    }
}
