using BitMiracle.LibJpeg.Classic;

namespace Glowcast.Engine.Take;

/// <summary>Decodes the brightness of a JPEG, small, within bounds.</summary>
internal static class JpegBrightness
{
    private const int MostSide = 20_000;
    private const long MostPixels = 120_000_000;
    private const long MostProgressivePixels = 12_000_000;
    private const int WideEnough = 256;

    /// <param name="budget">What is left to the file; a picture that would cost more is not decoded.</param>
    /// <returns>As it is stored, 256 pixels wide or more where it has them; null where it cannot be decoded.</returns>
    public static GrayPicture? Of(byte[] jpeg, DecodingBudget budget)
    {
        if (jpeg.Length < 100 || jpeg[0] != 0xFF || jpeg[1] != 0xD8) return null;
        try
        {
            return Decode(jpeg, budget);
        }
        catch (Exception broken) when (broken is not OutOfMemoryException)
        {
            // Whatever a damaged preview makes the decoder stumble over: there is then none.
            return null;
        }
    }

    private static GrayPicture? Decode(byte[] jpeg, DecodingBudget budget)
    {
        using var stream = new MemoryStream(jpeg, writable: false);
        var decoder = new jpeg_decompress_struct(new Strict());
        decoder.jpeg_stdio_src(stream);
        decoder.jpeg_read_header(true);
        var pixels = (long)decoder.Image_width * decoder.Image_height;
        var isInScans = decoder.jpeg_has_multiple_scans();
        if (Math.Max(decoder.Image_width, decoder.Image_height) > MostSide || pixels > (isInScans ? MostProgressivePixels : MostPixels)) return null;
        if (decoder.Num_components is not (1 or 3) || !budget.TryTakePixels(pixels, isInScans ? JpegScans.Count(jpeg, DecodingBudget.MostScans + 1) : 1)) return null;
        decoder.Out_color_space = J_COLOR_SPACE.JCS_GRAYSCALE;
        (decoder.Scale_num, decoder.Scale_denom) = (1, 1);
        while (decoder.Scale_denom < 8 && decoder.Image_width / (decoder.Scale_denom * 2) >= WideEnough) decoder.Scale_denom *= 2;
        decoder.jpeg_start_decompress();
        var gray = new byte[decoder.Output_width * decoder.Output_height];
        var line = new[] { new byte[decoder.Output_width] };
        while (decoder.Output_scanline < decoder.Output_height)
        {
            var at = decoder.Output_scanline * decoder.Output_width;
            decoder.jpeg_read_scanlines(line, 1);
            line[0].CopyTo(gray, at);
        }
        return new GrayPicture(decoder.Output_width, decoder.Output_height, gray);
    }

    /// <summary>Stops at errors and where there is no end of remarks, and writes nothing anywhere.</summary>
    private sealed class Strict : jpeg_error_mgr
    {
        // Of a sound picture the decoder remarks a few dozen things, besides each restart (level 3).
        private const int MostRemarks = 10_000;
        private const int OfRestarts = 3;

        private int remarks;

        public override void error_exit() => throw new InvalidDataException(format_message());

        public override void emit_message(int msg_level)
        {
            if (msg_level < OfRestarts && ++remarks > MostRemarks) throw new InvalidDataException("No end of markers.");
            // Of a file that breaks off the rest would be grey.
            if (msg_level < 0 && format_message() == GetMessageText((int)J_MESSAGE_CODE.JWRN_JPEG_EOF)) throw new InvalidDataException(format_message());
        }

        public override void output_message()
        {
        }
    }
}
