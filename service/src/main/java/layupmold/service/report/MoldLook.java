package layupmold.service.report;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.MoldOutcome.Mold;
import layupmold.geometry.Progress;
import layupmold.geometry.render.MoldPictures;
import layupmold.geometry.render.Picture;
import layupmold.service.recipe.AcceptedRecipe;
import org.springframework.stereotype.Component;

/** Makes everything that shows a mold to people: report page, model to turn, pictures. Seconds of work. */
@Component
public class MoldLook implements LookSet {

    public static final String PAGE = "report.html";
    public static final String MODEL = "mold.glb";
    public static final String PICTURES = "pictures/";

    /** The page is written last and needs all the others. */
    @Override
    public String mainFile() {
        return PAGE;
    }

    @Override
    public List<LookFile> of(String title, Mold mold, AcceptedRecipe recipe, Progress progress) {
        Inspected inspected = Inspected.of(mold, recipe.geometry());
        MoldPictures.Subject subject = new MoldPictures.Subject(
                mold.workpiece().part(), mold.workpiece().face(), mold.solid(), mold.regions(), inspected.maps());
        List<LookFile> pictures = new ArrayList<>();
        List<Picture> drawn = MoldPictures.of(subject);
        for (Picture picture : drawn) {
            pictures.add(new LookFile(PICTURES + picture.name() + ".png", "image/png", picture.toPng()));
        }
        InteractiveView view = InteractiveView.of(subject);
        ReportPage page = ReportPageBuilder.build(title, mold.report(), inspected, drawn, pictures, view);
        List<LookFile> files = new ArrayList<>(pictures);
        files.add(new LookFile(MODEL, "model/gltf-binary", view.glb()));
        files.add(new LookFile(PAGE, "text/html", ReportHtml.render(page)));
        return files;
    }
}
