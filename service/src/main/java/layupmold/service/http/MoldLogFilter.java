package layupmold.service.http;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.slf4j.MDC;
import org.springframework.stereotype.Component;
import org.springframework.web.filter.OncePerRequestFilter;

/** Names the mold that a request is about in every line logged for it. */
@Component
class MoldLogFilter extends OncePerRequestFilter {

    private static final Pattern MOLD = Pattern.compile("/v1/molds/([0-9a-z-]{1,64})(/.*)?");

    @Override
    protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        Matcher path = MOLD.matcher(request.getRequestURI());
        if (!path.matches()) {
            chain.doFilter(request, response);
            return;
        }
        try (MDC.MDCCloseable mold = MDC.putCloseable("mold", path.group(1))) {
            chain.doFilter(request, response);
        }
    }
}
