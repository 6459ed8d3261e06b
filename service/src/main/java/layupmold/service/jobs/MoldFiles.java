package layupmold.service.jobs;

import layupmold.service.store.Blob;

/** What a finished mold hands out; all three are in the store before any of them shows. */
public record MoldFiles(Blob stl, Blob threeMf, Blob report) {
}
