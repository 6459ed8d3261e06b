window.SwaggerUIBundle({ url: '/openapi.yaml', dom_id: '#contract', validatorUrl: null, deepLinking: true });
