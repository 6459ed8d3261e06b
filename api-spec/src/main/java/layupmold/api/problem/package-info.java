/** Errors as problem details (RFC 9457). */
package layupmold.api.problem;
