package layupmold.service.batch;

import layupmold.geometry.congruence.Congruence;
import layupmold.service.store.Blob;

/**
 * What sorting found about a part.
 *
 * @param mesh its bytes
 * @param model position of the part whose mold it takes over, or -1
 * @param match how that part's shape goes over into this one's, or null
 * @param note what to know about it besides, or null
 */
record SortedPart(PartRow part, Blob mesh, int model, Congruence.Match match, String note) {

    static SortedPart alone(PartRow part, Blob mesh, String note) {
        return new SortedPart(part, mesh, -1, null, note);
    }
}
