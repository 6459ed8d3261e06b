package layupmold.geometry.body;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.mesh.LabelledMeshBuilder;

/**
 * Closes a deck to a block: upright sides down from the outline to a flat base, holes all the way through. Prints
 * without supports as long as the tool surface has no overhang of its own. O(n) and the base's triangulation.
 */
final class BlockBody {

    private BlockBody() {
    }

    /**
     * @param base height of the base, below everything else
     * @return the closed solid in the deck's frame, before placement
     */
    static LabelledMeshBuilder close(Deck deck, double base) {
        Deck.Closing closing = deck.hang(base);
        List<int[]> rings = new ArrayList<>(closing.holes());
        rings.add(closing.outline());
        PlanFill.fill(deck.solid, rings, false, MoldRegion.BASE);
        return deck.solid;
    }
}
