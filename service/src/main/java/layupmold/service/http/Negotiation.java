package layupmold.service.http;

import java.util.List;
import java.util.Optional;
import org.springframework.http.InvalidMediaTypeException;
import org.springframework.http.MediaType;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;

/** Proactive content negotiation by the Accept header (RFC 9110, section 12.5.1). */
final class Negotiation {

    private Negotiation() {
    }

    /**
     * The offered type with the highest quality; the earlier one if several are alike. For each type the most specific
     * range that matches it decides.
     *
     * @param accept value of the Accept header, or null
     * @param offered types that can be given, the preferred ones first
     * @return empty if none is accepted
     * @throws ProblemException if the header cannot be read
     */
    static Optional<MediaType> pick(String accept, List<MediaType> offered) {
        List<MediaType> ranges = parse(accept);
        if (ranges.isEmpty()) {
            return Optional.of(offered.get(0));
        }
        MediaType best = null;
        double bestQuality = 0;
        for (MediaType type : offered) {
            double quality = quality(type, ranges);
            if (quality > bestQuality) {
                best = type;
                bestQuality = quality;
            }
        }
        return Optional.ofNullable(best);
    }

    /** @throws ProblemException with status 406 if none of the types is accepted */
    static MediaType require(String accept, List<MediaType> offered) {
        return pick(accept, offered).orElseThrow(() -> new ProblemException(ProblemKind.NOT_ACCEPTABLE,
                "This can be given as " + MediaType.toString(offered) + "."));
    }

    private static List<MediaType> parse(String accept) {
        try {
            return MediaType.parseMediaTypes(accept);
        } catch (InvalidMediaTypeException e) {
            throw new ProblemException(ProblemKind.BAD_REQUEST, "The Accept header cannot be read: " + e.getMessage());
        }
    }

    private static double quality(MediaType type, List<MediaType> ranges) {
        int mostSpecific = -1;
        double quality = 0;
        for (MediaType range : ranges) {
            int specificity = range.isWildcardType() ? 0 : range.isWildcardSubtype() ? 1 : 2;
            if (range.includes(type) && specificity > mostSpecific) {
                mostSpecific = specificity;
                quality = range.getQualityValue();
            }
        }
        return quality;
    }
}
