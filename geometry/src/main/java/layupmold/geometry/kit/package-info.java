/** What the bench needs besides the mold: templates, resin, coupon and the steps of the work. */
package layupmold.geometry.kit;
