package layupmold.service.http;

import org.springframework.boot.tomcat.servlet.TomcatServletWebServerFactory;
import org.springframework.boot.web.server.WebServerFactoryCustomizer;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.http.converter.HttpMessageConverters;
import org.springframework.web.servlet.config.annotation.AsyncSupportConfigurer;
import org.springframework.web.servlet.config.annotation.ViewControllerRegistry;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;

/** Web settings that are not plain configuration. */
@Configuration(proxyBeanMethods = false)
class WebSetup implements WebMvcConfigurer {

    @Override
    public void configureMessageConverters(HttpMessageConverters.ServerBuilder converters) {
        converters.addCustomConverter(new SerdeMessageConverter());
    }

    /** Waiting requests end by themselves. */
    @Override
    public void configureAsyncSupport(AsyncSupportConfigurer async) {
        async.setDefaultTimeout(-1);
    }

    @Override
    public void addViewControllers(ViewControllerRegistry views) {
        views.addViewController("/docs").setViewName("forward:/docs/index.html");
        views.addRedirectViewController("/", "/docs");
    }

    /** Tells a client that asks first that its body is too large before it sends it. */
    @Bean
    WebServerFactoryCustomizer<TomcatServletWebServerFactory> earlyRefusal() {
        return factory -> {
            factory.addConnectorCustomizers(connector -> connector.setProperty("continueResponseTiming", "onRead"));
            factory.addContextCustomizers(context ->
                    context.getParent().getPipeline().addValve(new ProblemReportValve()));
        };
    }
}
