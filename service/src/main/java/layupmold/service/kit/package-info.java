/** The layup kit on paper: templates, cut layouts, work cards and shopping lists as SVG, PDF and HTML. */
package layupmold.service.kit;
