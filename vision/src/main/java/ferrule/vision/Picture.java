package ferrule.vision;

import java.awt.image.BufferedImage;

/**
 * A picture as read, upright.
 *
 * @param grey its brightness
 * @param original the picture itself, turned as its EXIF entry asks
 */
public record Picture(Grey grey, BufferedImage original) {}
