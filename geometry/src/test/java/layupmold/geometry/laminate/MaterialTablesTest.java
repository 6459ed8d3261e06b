package layupmold.geometry.laminate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.stream.Stream;
import layupmold.geometry.recipe.Printer;
import layupmold.geometry.recipe.Weave;
import org.junit.jupiter.api.Test;

class MaterialTablesTest {

    @Test
    void everyRowSaysWhereItsFiguresComeFrom() {
        Stream.of(
                MaterialTables.fibres().stream().map(MaterialTables.Fibre::source),
                MaterialTables.cloths().stream().map(MaterialTables.Cloth::source),
                MaterialTables.weaves().stream().map(MaterialTables.WeaveFigures::source),
                MaterialTables.resins().stream().map(MaterialTables.Resin::source),
                MaterialTables.printMaterials().stream().map(MaterialTables.PrintMaterial::source))
                .flatMap(s -> s).forEach(source -> assertFalse(source.isBlank()));
    }

    /** Published ranges in g/cm³, trade handbooks: carbon 1.76 to 1.81, E-glass 2.54 to 2.60. */
    @Test
    void fibreDensitiesLieInPublishedRanges() {
        MaterialTables.Fibre carbon = MaterialTables.fibres().get(0);
        MaterialTables.Fibre glass = MaterialTables.fibres().get(1);
        assertEquals("carbon", carbon.name());
        assertTrue(carbon.density() >= 1.76 && carbon.density() <= 1.81);
        assertEquals("e-glass", glass.name());
        assertTrue(glass.density() >= 2.54 && glass.density() <= 2.60);
    }

    @Test
    void tablesCoverTheRecipesChoices() {
        for (Weave weave : Weave.values()) {
            assertTrue(MaterialTables.weave(weave).lockingDeg() > 0);
        }
        for (Printer.Material material : Printer.Material.values()) {
            assertTrue(MaterialTables.printMaterial(material).softensC() > 50);
        }
        MaterialTables.cloths().forEach(cloth -> assertTrue(
                MaterialTables.fibres().stream().anyMatch(f -> f.name().equals(cloth.fibre())), cloth.name()));
    }

    /** Twill yarns float over two crossings and so can turn further before they jam (common practice, no source). */
    @Test
    void twillShearsFurtherThanPlain() {
        assertTrue(MaterialTables.weave(Weave.TWILL_2X2).lockingDeg() > MaterialTables.weave(Weave.PLAIN).lockingDeg());
    }

    @Test
    void unknownResinIsAnError() {
        assertThrows(IllegalArgumentException.class, () -> MaterialTables.resin("honey"));
    }
}
