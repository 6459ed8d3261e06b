package layupmold.service.kit;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import layupmold.api.ContractJson;
import layupmold.api.kit.CouponDocument;
import layupmold.api.kit.KitFile;
import layupmold.api.report.PlaceFigures;
import layupmold.geometry.MoldOutcome.Mold;
import layupmold.geometry.Progress;
import layupmold.geometry.kit.Coupon;
import layupmold.geometry.mesh.io.StlWriter;
import layupmold.geometry.mesh.io.ThreeMfWriter;
import layupmold.service.making.ReportMapping;
import layupmold.service.recipe.AcceptedRecipe;
import layupmold.service.report.LookFile;
import layupmold.service.report.LookSet;
import org.joml.Vector3d;
import org.springframework.stereotype.Component;

/** Makes the coupon of a mold: a small mold of its hardest place. */
@Component
public class MoldCoupon implements LookSet {

    public static final String COUPON = "coupon.json";
    public static final String STL = "coupon.stl";
    public static final String THREE_MF = "coupon.3mf";

    @Override
    public String mainFile() {
        return COUPON;
    }

    @Override
    public List<LookFile> of(String title, Mold mold, AcceptedRecipe recipe, Progress progress) {
        Coupon coupon = Coupon.of(mold, recipe.geometry(), recipe.kit(), progress);
        LookFile stl = new LookFile(STL, "model/stl", bytes(out -> StlWriter.write(coupon.mold().solid(),
                "coupon in mm, recipe " + recipe.hash().substring(0, 16), out)));
        LookFile threeMf = new LookFile(THREE_MF, "model/3mf", bytes(out -> ThreeMfWriter.write(coupon.mold().solid(),
                coupon.mold().regions(), metadata(coupon, recipe), out)));
        Vector3d at = coupon.at();
        Vector3d size = coupon.mold().report().body().sizeMm();
        CouponDocument document = new CouponDocument(title, new PlaceFigures(at.x, at.y, at.z, null), coupon.sizeMm(),
                coupon.place().steepestDeg(), coupon.place().gapMm(), coupon.place().shearDeg(),
                coupon.mold().report().offset().signedMm(), List.of(size.x, size.y, size.z), coupon.printMinutes(),
                coupon.mold().report().print().filament().printedMm3(), ReportMapping.REPORTS.toContract(coupon.mold().report().findings()),
                List.of(new KitFile(stl.name(), stl.mediaType()), new KitFile(threeMf.name(), threeMf.mediaType())));
        return List.of(stl, threeMf, new LookFile(COUPON, "application/json", ContractJson.write(document)));
    }

    private static Map<String, String> metadata(Coupon coupon, AcceptedRecipe recipe) {
        Map<String, String> metadata = new LinkedHashMap<>();
        metadata.put("Title", coupon.recipe().title());
        metadata.put("Application", "Layupmold");
        metadata.put("material", recipe.effective().printer().material().name());
        metadata.put("recipeHash", recipe.hash());
        return metadata;
    }

    private interface Writer {
        void writeTo(ByteArrayOutputStream out) throws IOException;
    }

    private static byte[] bytes(Writer writer) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try {
            writer.writeTo(out);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot write to memory", e);
        }
        return out.toByteArray();
    }
}
