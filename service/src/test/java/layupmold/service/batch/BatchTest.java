package layupmold.service.batch;

import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.everyItem;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasItems;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.lessThan;
import static org.hamcrest.Matchers.notNullValue;
import static org.hamcrest.Matchers.nullValue;
import static org.hamcrest.Matchers.oneOf;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.restassured.response.Response;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Set;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.MeshLimits;
import layupmold.geometry.mesh.io.MeshReader;
import layupmold.geometry.mesh.io.StlWriter;
import layupmold.service.CubeMaker;
import layupmold.service.Parts;
import layupmold.service.RunningService;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** Suits through a running service with a stand-in for the pipeline that counts its work. */
class BatchTest {

    private static final CubeMaker MAKER = new CubeMaker();
    private static RunningService service;

    @BeforeAll
    static void start() {
        service = RunningService.start(MAKER, "layupmold.jobs.light-threads=2", "layupmold.jobs.max-tries=2",
                "layupmold.jobs.retry-after=100ms", "layupmold.upload.max-parts=60", "layupmold.upload.max-suit=4MB",
                "layupmold.jobs.poll=200ms");
    }

    @AfterAll
    static void stop() {
        service.close();
    }

    private static Response post(SuitZips zip, int wait) {
        return service.request().header("Prefer", "wait=" + wait).contentType("application/zip").body(zip.bytes())
                .post("/v1/batches");
    }

    private static String part(String name, String title, String more) {
        return "{\"name\":\"" + name + "\",\"file\":\"" + name + ".stl\",\"recipe\":{\"title\":\"" + title + "\"}" + more + "}";
    }

    private static String manifest(String... parts) {
        return "{\"title\":\"Heron\",\"parts\":[" + String.join(",", parts) + "]}";
    }

    /** Four corners without any symmetry. */
    static byte[] chiral(float scale, boolean mirrored, float shift) {
        float[][] p = {{0, 0, 0}, {31, 2, 1}, {5, 23, 3}, {7, 4, 17}};
        int[][] faces = {{0, 2, 1}, {0, 1, 3}, {1, 2, 3}, {0, 3, 2}};
        TriangleMesh mesh = new TriangleMesh(new double[12], new int[12]);
        for (int v = 0; v < 4; v++) {
            for (int k = 0; k < 3; k++) {
                mesh.xyz()[3 * v + k] = scale * p[v][k] * (mirrored && k == 1 ? -1 : 1) + shift;
                mesh.triangles()[3 * v + k] = faces[v][k];
            }
        }
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try {
            StlWriter.write(mirrored ? mesh.flipped() : mesh, "test", out);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toByteArray();
    }

    @Test
    void partsOfOneShapeShareOneMoldAndOthersHaveTheirOwn() {
        Response done = post(SuitZips.with("left.stl", chiral(1, false, 0)).and("right.stl", chiral(1, true, 40))
                .and("again.stl", chiral(1, false, -9)).and("other.stl", chiral(1.5f, false, 0))
                .and("suit.json", manifest(part("left", "L", ""), part("right", "R", ",\"mirrorOf\":\"left\""),
                        part("again", "A", ""), part("other", "O", ""))), 60);
        done.then().statusCode(200).body("status", equalTo("done")).body("percent", equalTo(100))
                .body("parts.status", equalTo(List.of("done", "done", "done", "done")))
                .body("parts[0].likeness", nullValue())
                .body("parts[1].likeness.kind", equalTo("mirrored")).body("parts[1].likeness.part", equalTo("left"))
                .body("parts[1].likeness.deviationMm", lessThan(0.01f)).body("parts[1].note", nullValue())
                .body("parts[2].likeness.kind", equalTo("same")).body("parts[3].likeness", nullValue());
        assertEquals(1, MAKER.finished.get("L").get());
        assertEquals(null, MAKER.finished.get("R"));
        assertEquals(null, MAKER.finished.get("A"));
        assertEquals(1, MAKER.finished.get("O").get());
        String right = done.path("parts[1].mold");
        service.request().get(right + "/report.json").then().statusCode(200)
                .body("recipe.title", equalTo("R")).body("findings.code", hasItem("mold-mirrored"))
                .body("recipe.layup.plies.angleDeg", equalTo(List.of(0f, -45f)));
        service.request().get(done.path("parts[2].mold") + "/report.json").then().statusCode(200)
                .body("findings.code", hasItem("mold-reused"));
    }

    /** Angles of plies change templates, not molds, so they neither part a pair nor are they turned against one's will. */
    @Test
    void aMirrorImageWithPliesOfItsOwnKeepsTheirAnglesAndSharesTheMold() {
        String plies = ",\"layup\":{\"plies\":[{\"angleDeg\":30}]}";
        String manifest = "{\"defaults\":{\"layup\":{\"plies\":[{\"angleDeg\":30}]}},\"parts\":["
                + "{\"name\":\"l\",\"file\":\"l.stl\",\"recipe\":{\"title\":\"thirty\"}},"
                + "{\"name\":\"r\",\"file\":\"r.stl\",\"mirrorOf\":\"l\",\"recipe\":{\"title\":\"thirty r\"}},"
                + "{\"name\":\"own\",\"file\":\"r.stl\",\"mirrorOf\":\"l\",\"recipe\":{\"title\":\"own\"" + plies + "}}]}";
        Response done = post(SuitZips.with("l.stl", chiral(1.25f, false, 0)).and("r.stl", chiral(1.25f, true, 3))
                .and("suit.json", manifest), 60);
        done.then().statusCode(200).body("parts[1].likeness.kind", equalTo("mirrored"))
                .body("parts[2].likeness.kind", equalTo("mirrored")).body("parts.note", everyItem(nullValue()));
        List<Float> angles = List.of(30f, -30f, 30f);
        for (int i = 0; i < 3; i++) {
            service.request().get(done.path("parts[" + i + "].mold") + "/report.json").then().statusCode(200)
                    .body("recipe.layup.plies.angleDeg", equalTo(List.of(angles.get(i))));
        }
        assertEquals(null, MAKER.finished.get("own"));
    }

    @Test
    void theMirroredMoldIsTheMirrorImageOfTheOther() {
        Response done = post(SuitZips.with("l1.stl", chiral(2, false, 0)).and("r1.stl", chiral(2, true, 3))
                .and("suit.json", manifest(part("l1", "L1", ""), part("r1", "R1", ""))), 60);
        done.then().statusCode(200).body("parts[1].likeness.kind", equalTo("mirrored"));
        TriangleMesh left = mesh(done.path("parts[0].mold"));
        TriangleMesh right = mesh(done.path("parts[1].mold"));
        assertEquals(left.triangleCount(), right.triangleCount());
        assertEquals(left.volume(), right.volume(), 1e-9 * left.volume());
        assertTrue(right.volume() > 0, "it faces outward");
        for (int t = 0; t < left.triangleCount(); t++) {
            assertEquals(-left.centroid(t).x, right.centroid(t).x, 1e-6);
            assertEquals(left.centroid(t).z, right.centroid(t).z, 1e-6);
        }
    }

    private static TriangleMesh mesh(String mold) {
        return MeshReader.read(service.request().get(mold + "/mold.stl").asByteArray(), null, MeshLimits.defaults()).mesh();
    }

    @Test
    void aPartWithoutFileIsTheMirrorImageOfItsModel() {
        Response done = post(SuitZips.with("arm.stl", chiral(3, false, 0))
                .and("suit.json", manifest(part("arm", "arm", ""),
                        "{\"name\":\"other arm\",\"mirrorOf\":\"arm\",\"recipe\":{\"title\":\"other arm\"}}")), 60);
        done.then().statusCode(200).body("status", equalTo("done"))
                .body("parts[1].likeness.kind", equalTo("mirrored")).body("parts[1].likeness.deviationMm", equalTo(0.0f));
        assertEquals(null, MAKER.finished.get("other arm"));
    }

    @Test
    void aPartThatFailsDoesNotFailTheSuitAndItsTwinsFailAlike() {
        Response done = post(SuitZips.with("good.stl", Parts.tetrahedron(11)).and("bad.stl", chiral(4, false, 0))
                .and("bad2.stl", chiral(4, true, 0)).and("noise.stl", "these are no triangles")
                .and("suit.json", manifest(part("good", "good", ""), part("bad", "reject", ""),
                        part("bad2", "reject two", ""), part("noise", "noise", ""))), 60);
        done.then().statusCode(200).body("status", equalTo("incomplete"))
                .body("parts.status", equalTo(List.of("done", "rejected", "rejected", "rejected")))
                .body("parts[1].problem.findings[0].code", equalTo("wall-not-found"))
                .body("parts[2].problem.findings.code", hasItems("wall-not-found", "mold-mirrored"))
                .body("parts[3].problem.findings[0].stage", equalTo("read"))
                .body("links.bundle", notNullValue());
        assertEquals(1, MAKER.begun.get("reject").get());
        assertEquals(null, MAKER.begun.get("reject two"));
    }

    @Test
    void recipesThatDifferKeepTheirOwnMoldsAndANameThatLiesIsNoted() {
        Response done = post(SuitZips.with("p.stl", chiral(5, false, 0)).and("q.stl", chiral(5, true, 0))
                .and("suit.json", "{\"defaults\":{\"releaseMm\":0.1,\"flange\":{\"widthMm\":30}},\"parts\":["
                        + "{\"name\":\"p\",\"file\":\"p.stl\"},{\"name\":\"q\",\"file\":\"q.stl\",\"mirrorOf\":\"p\","
                        + "\"recipe\":{\"releaseMm\":0.2}}]}"), 60);
        done.then().statusCode(200).body("status", equalTo("done")).body("parts[1].likeness", nullValue())
                .body("parts[1].note", containsString("mirror image of p"));
        service.request().get(done.<String>path("parts[1].mold")).then()
                .body("recipe.releaseMm", equalTo(0.2f)).body("recipe.flange.widthMm", equalTo(30f));
    }

    @Test
    void theSameSuitAsCsvGivesTheSameRecipes() {
        String csv = "part,file,mirror_of,quantity,description,recipe,recipe.printer.bedXMm,recipe.title\r\n"
                + "one,one.stl,,3,\"a, b\",\"{\"\"releaseMm\"\":0.3}\",500,One\r\ntwo,one.stl,,,,,,\r\n";
        Response done = service.request().header("Prefer", "wait=60")
                .multiPart("suit", "suit.zip", SuitZips.with("one.stl", Parts.tetrahedron(12)).bytes(), "application/zip")
                .multiPart("manifest", csv).multiPart("recipe", "{\"hold\":\"outer\"}").post("/v1/batches");
        done.then().statusCode(200).body("parts[0].quantity", equalTo(3)).body("parts[1].quantity", equalTo(1));
        service.request().get(done.<String>path("parts[0].mold")).then().body("recipe.releaseMm", equalTo(0.3f))
                .body("recipe.printer.bedXMm", equalTo(500f)).body("recipe.hold", equalTo("outer"))
                .body("recipe.title", equalTo("One"));
        service.request().get(done.<String>path("parts[1].mold")).then().body("recipe.releaseMm", equalTo(0.05f))
                .body("recipe.hold", equalTo("outer"));
    }

    @Test
    void theBundleHoldsWhatItsListSays() {
        Response done = post(SuitZips.with("heron/a.stl", chiral(6, false, 0)).and("heron/b.stl", chiral(6, false, 5))
                .and("heron/c.stl", Parts.tetrahedron(13)).and("__MACOSX/heron/a.stl", "litter")
                .and("heron/suit.json", manifest(part("a", "a", ""), part("b", "b", ",\"quantity\":4"),
                        part("c", "reject c", ""))), 60);
        String self = done.path("links.self");
        Response bundle = service.request().get(done.<String>path("links.bundle"));
        bundle.then().statusCode(200).contentType("application/zip");
        Map<String, byte[]> files = SuitZips.read(bundle.asByteArray());
        assertEquals(Set.of("contents.json", "summary.json", "summary.html", "a/mold.stl", "a/mold.3mf", "a/report.json",
                "b/report.json", "c/problem.json"), files.keySet());
        assertEquals(12, MeshReader.read(files.get("a/mold.3mf"), null, MeshLimits.defaults()).mesh().triangleCount());
        assertTrue(new String(files.get("contents.json"), StandardCharsets.UTF_8).contains("\"moldIn\":\"a\""));
        service.request().get(self + "/summary.json").then().statusCode(200)
                .body("pieces", equalTo(6)).body("molds", equalTo(1)).body("parts.printed", equalTo(List.of(true, false, false)))
                .body("attention.part", hasItem("c")).body("filament", hasSize(1)).body("cloths", hasSize(1));
        service.request().get(self + "/summary.html").then().statusCode(200)
                .body(containsString("same as a")).body(containsString("1 of 3 parts have no mold"));
    }

    /** Sums by hand from one part's report: four more pieces take four times its cloth and resin, and no more filament. */
    @Test
    void aPieceMoreTakesClothAndResinButNoOtherMold() {
        SuitZips zip = SuitZips.with("s.stl", Parts.tetrahedron(14));
        Response one = post(new SuitZips().and("s.stl", Parts.tetrahedron(14)).and("suit.json", manifest(part("s", "s", ""))), 60);
        Response five = post(zip.and("suit.json", manifest(part("s", "s", ",\"quantity\":5"))), 60);
        Response a = service.request().get(one.<String>path("links.summary"));
        Response b = service.request().get(five.<String>path("links.summary"));
        assertEquals(5 * a.<Float>path("resinG"), b.<Float>path("resinG"), 1e-3 * b.<Float>path("resinG"));
        assertEquals(5 * a.<Float>path("cloths[0].areaM2"), b.<Float>path("cloths[0].areaM2"), 1e-6);
        assertEquals(a.<Float>path("filament[0].massG"), b.<Float>path("filament[0].massG"), 1e-6);
        assertTrue(a.<Float>path("filament[0].massG") > 0);
    }

    @Test
    void mistakesInAManifestAreToldWithTheirPointers() {
        post(SuitZips.with("a.stl", Parts.tetrahedron(9)).and("suit.json", "{\"parts\":["
                + "{\"name\":\"a\",\"file\":\"a.stl\",\"recipe\":{\"flange\":{\"width\":3}}},"
                + "{\"name\":\"b\",\"file\":\"b.stl\"},{\"name\":\"A\",\"file\":\"a.stl\",\"mirrorOf\":\"c\"},"
                + "{\"name\":\"d\"}]}"), 0).then().statusCode(422)
                .body("type", equalTo("https://layupmold.invalid/problems/suit-invalid"))
                .body("errors.pointer", hasItem("/parts/0/recipe/flange/width"));
        post(SuitZips.with("a.stl", Parts.tetrahedron(9)).and("suit.json", "{\"parts\":["
                + "{\"name\":\"a\",\"file\":\"a.stl\"},"
                + "{\"name\":\"b\",\"file\":\"b.stl\"},{\"name\":\"A\",\"file\":\"a.stl\",\"mirrorOf\":\"c\"},"
                + "{\"name\":\"d\"}]}"), 0).then().statusCode(422)
                .body("errors.pointer", equalTo(List.of("/parts/1/file", "/parts/3", "/parts/2/name", "/parts/2/mirrorOf")));
        post(SuitZips.with("a.stl", Parts.tetrahedron(9)).and("suit.json", "{\"parts\":[{\"name\":\"../a\",\"file\":\"a.stl\"}]}"),
                0).then().statusCode(422).body("errors[0].code", equalTo("malformed"));
        post(SuitZips.with("a.stl", Parts.tetrahedron(9)), 0).then().statusCode(422).body("detail", containsString("manifest"));
    }

    @Test
    void hostileZipsAreRefused() {
        post(SuitZips.with("../../etc/a.stl", Parts.tetrahedron(9)).and("suit.json", manifest(part("a", "a", ""))), 0)
                .then().statusCode(422).body("detail", containsString("leads out"));
        service.request().contentType("application/zip").body("PK but not really".getBytes(StandardCharsets.UTF_8))
                .post("/v1/batches").then().statusCode(422);
        // Six megabytes of zeros shrink to a few kilobytes: what comes out counts.
        post(SuitZips.with("a.stl", new byte[6 << 20]).and("suit.json", manifest(part("a", "a", ""))), 0)
                .then().statusCode(413);
        SuitZips crowd = SuitZips.with("suit.json", manifest(part("a", "a", "")).getBytes(StandardCharsets.UTF_8));
        for (int i = 0; i < 250; i++) {
            crowd.and("f" + i, "x");
        }
        post(crowd, 0).then().statusCode(422).body("detail", containsString("too many entries"));
        service.request().contentType("text/plain").body("x").post("/v1/batches").then().statusCode(415);
    }

    @Test
    void aSuitIsCancelledAndDeletedWithItsMolds() {
        Response running = post(SuitZips.with("x.stl", Parts.tetrahedron(15)).and("y.stl", Parts.tetrahedron(16))
                .and("suit.json", manifest(part("x", "slow 40", ""), part("y", "slow 41", ""))), 0);
        running.then().statusCode(202).body("status", oneOf("sorting", "running"));
        String self = running.path("links.self");
        service.request().get(self + "/bundle.zip").then().statusCode(409);
        service.request().header("Prefer", "wait=1").get(self).then().statusCode(200).body("status", equalTo("running"));
        service.request().post(self + "/cancel").then().statusCode(200).body("status", equalTo("incomplete"))
                .body("parts.status", equalTo(List.of("cancelled", "cancelled")));
        String mold = service.request().get(self).path("parts[0].mold");
        assertNotNull(mold);
        service.request().delete(self).then().statusCode(204);
        service.request().get(self).then().statusCode(404);
        service.request().get(mold).then().statusCode(404);
    }

    @Test
    void aRepeatedRequestWithItsKeyIsTheSameSuit() {
        byte[] zip = SuitZips.with("k.stl", Parts.tetrahedron(17)).and("suit.json", manifest(part("k", "k", ""))).bytes();
        Response first = service.request().header("Idempotency-Key", "suit-1").contentType("application/zip").body(zip)
                .post("/v1/batches");
        Response again = service.request().header("Idempotency-Key", "suit-1").contentType("application/zip").body(zip)
                .post("/v1/batches");
        assertEquals(first.header("Location"), again.header("Location"));
        service.request().get("/v1/batches?limit=1").then().statusCode(200).body("items", hasSize(1));
    }
}
