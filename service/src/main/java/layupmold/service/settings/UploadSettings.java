package layupmold.service.settings;

import java.time.Duration;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;
import org.springframework.util.unit.DataSize;

/**
 * Bounds on what may be posted.
 *
 * @param maxPart largest part file
 * @param maxRecipe largest recipe
 * @param maxSuit largest zip of a suit, and most bytes that it may unfold to
 * @param maxParts most parts of a suit
 * @param deadline how long one upload may take in all
 */
@ConfigurationProperties("layupmold.upload")
public record UploadSettings(
        @DefaultValue("256MB") DataSize maxPart,
        @DefaultValue("64KB") DataSize maxRecipe,
        @DefaultValue("1GB") DataSize maxSuit,
        @DefaultValue("500") int maxParts,
        @DefaultValue("2m") Duration deadline) {
}
