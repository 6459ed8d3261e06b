package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import layupmold.service.kit.MoldCoupon;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RestController;

/** The coupon of a mold: a small mold of its hardest place. */
@RestController
class CouponController {

    private final MoldCoupon coupon;
    private final LookAnswers answers;

    CouponController(MoldCoupon coupon, LookAnswers answers) {
        this.coupon = coupon;
        this.answers = answers;
    }

    @GetMapping("/v1/molds/{id}/coupon.json")
    ResponseEntity<?> figures(@PathVariable String id, HttpServletRequest request) throws IOException {
        return answers.file(id, coupon, MoldCoupon.COUPON, Media.JSON, request);
    }

    @GetMapping("/v1/molds/{id}/coupon.stl")
    ResponseEntity<?> stl(@PathVariable String id, HttpServletRequest request) throws IOException {
        return answers.file(id, coupon, MoldCoupon.STL, Media.STL, request);
    }

    @GetMapping("/v1/molds/{id}/coupon.3mf")
    ResponseEntity<?> threeMf(@PathVariable String id, HttpServletRequest request) throws IOException {
        return answers.file(id, coupon, MoldCoupon.THREE_MF, Media.THREE_MF, request);
    }
}
