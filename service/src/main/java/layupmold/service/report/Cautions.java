package layupmold.service.report;

import java.util.List;
import layupmold.service.report.ReportPage.Caution;

/** What can hurt whoever prints, laminates and demolds. The same on every report. */
final class Cautions {

    static final List<Caution> ALL = List.of(
            new Caution("Not protective equipment",
                    "A part from this mold is not certified protective equipment. Do not rely on it as a helmet, guard or"
                            + " armour against real blows, and do not sell it as such."),
            new Caution("Resin and hardener",
                    "They irritate and sensitise skin; an allergy, once there, stays. Read the safety data sheet first, wear"
                            + " nitrile gloves and eye protection, work with fresh air, and keep both from children."),
            new Caution("Heat of cure",
                    "Mixed resin heats itself. A full cup or a thick layer can smoke or burn, and heat softens a printed mold."
                            + " Mix small amounts, spread them at once, and keep to the pot life on the data sheet."),
            new Caution("Dust",
                    "Sanding and cutting cured laminate sets free fine carbon and glass dust that harms lungs, eyes and skin and"
                            + " conducts electricity. Wet sand, extract at the source, and wear a particle respirator that fits."),
            new Caution("Sharp edges and tools",
                    "Cut laminate and stray fibres cut and splinter. Demold with wedges of plastic or wood, away from your hands,"
                            + " and dull the trimmed edge at once."),
            new Caution("Release agents, waxes and solvents",
                    "Some burn easily, some harm when breathed. Follow the maker's sheet, keep flames away, and store soaked rags"
                            + " in a closed metal bin."),
            new Caution("Before anything else",
                    "Data sheets of your materials, local rules and a licensed professional's word come before this report. It is"
                            + " measured on the model of the mold, not on your print."));

    private Cautions() {
    }
}
