package layupmold.service.access;

import jakarta.servlet.DispatcherType;
import jakarta.servlet.http.HttpServletRequest;
import layupmold.service.problem.ProblemAnswer;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.security.authentication.AuthenticationManagerResolver;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.AbstractHttpConfigurer;
import org.springframework.security.config.annotation.web.configurers.AuthorizeHttpRequestsConfigurer;
import org.springframework.security.config.annotation.web.configurers.HeadersConfigurer;
import org.springframework.security.config.http.SessionCreationPolicy;
import org.springframework.security.oauth2.server.resource.web.BearerTokenAuthenticationEntryPoint;
import org.springframework.security.oauth2.server.resource.web.access.BearerTokenAccessDeniedHandler;
import org.springframework.security.web.AuthenticationEntryPoint;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.security.web.access.AccessDeniedHandler;
import org.springframework.security.web.access.intercept.AuthorizationFilter;

/** Puts access control in front of everything: either none at all, or by the scopes that the contract names. */
@Configuration(proxyBeanMethods = false)
class AccessSetup {

    @Bean
    SecurityFilterChain access(HttpSecurity http, TokenCheck check) throws Exception {
        http.csrf(AbstractHttpConfigurer::disable)
                .requestCache(AbstractHttpConfigurer::disable)
                .logout(AbstractHttpConfigurer::disable)
                .headers(headers -> headers.cacheControl(HeadersConfigurer.CacheControlConfig::disable))
                .sessionManagement(sessions -> sessions.sessionCreationPolicy(SessionCreationPolicy.STATELESS));
        if (check.isOn()) {
            http.authorizeHttpRequests(AccessSetup::rules)
                    .addFilterBefore(new RequestRate(), AuthorizationFilter.class)
                    .oauth2ResourceServer(bearer -> bearer
                            .authenticationManagerResolver((AuthenticationManagerResolver<HttpServletRequest>)
                                    request -> check)
                            .authenticationEntryPoint(unknown())
                            .accessDeniedHandler(notAllowed()));
        } else {
            http.authorizeHttpRequests(rules -> rules.anyRequest().permitAll());
        }
        return http.build();
    }

    private static void rules(AuthorizeHttpRequestsConfigurer<HttpSecurity>.AuthorizationManagerRequestMatcherRegistry to) {
        // Later rounds of a request that was let in once.
        to.dispatcherTypeMatchers(DispatcherType.ASYNC, DispatcherType.ERROR, DispatcherType.FORWARD).permitAll();
        for (ContractRules.Rule rule : ContractRules.read()) {
            if (rule.scope() == null) {
                to.requestMatchers(rule.method(), rule.path()).permitAll();
            } else {
                to.requestMatchers(rule.method(), rule.path()).hasAuthority(Scopes.authority(rule.scope()));
            }
        }
        to.requestMatchers("/v1/**").denyAll();
        to.requestMatchers("/actuator/health/**", "/", "/docs/**", "/webjars/**", "/error").permitAll();
        to.requestMatchers("/actuator/**").hasAuthority(Scopes.authority("admin"));
        to.anyRequest().authenticated();
    }

    private static AuthenticationEntryPoint unknown() {
        AuthenticationEntryPoint challenge = new BearerTokenAuthenticationEntryPoint();
        return (request, response, why) -> {
            challenge.commence(request, response, why);
            ProblemAnswer.write(response, new ProblemException(ProblemKind.UNAUTHENTICATED,
                    "Send a key that holds, as \"Authorization: Bearer <key>\"."));
        };
    }

    private static AccessDeniedHandler notAllowed() {
        AccessDeniedHandler challenge = new BearerTokenAccessDeniedHandler();
        return (request, response, why) -> {
            challenge.handle(request, response, why);
            ProblemAnswer.write(response, new ProblemException(ProblemKind.FORBIDDEN,
                    "The scopes of this key do not allow it."));
        };
    }
}
