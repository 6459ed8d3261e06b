/** Webhooks: signed events for whoever asks for them. */
package layupmold.api.webhook;
