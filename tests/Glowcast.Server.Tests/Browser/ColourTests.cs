namespace Glowcast.Server.Tests.Browser;

/// <summary>The page's colours by numbers: contrast as WCAG 2.2 asks for, and lightness that eyes without red, green or blue cones still tell apart.</summary>
[Trait("Category", "Browser")]
public class ColourTests(Service service, Chromium chromium)
{
    private const double LeastOfText = 4.5;
    private const double LeastOfDrawing = 3;

    // Steps of CIE lightness between neighbouring states; textures tell them apart besides. Red alone has fewer, and eyes without red cones see little of it.
    private const double LeastApart = 9;
    private const double LeastApartInRed = 5;

    private static readonly string[] States = ["shade", "lit", "lit-pale"];

    /// <summary>G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A Physiologically-based Model for Simulation of Color Vision Deficiency", IEEE TVCG 15 (6),
    /// 2009: the matrices for full severity, on linear sRGB.</summary>
    private static readonly Dictionary<string, double[,]> Eyes = new()
    {
        ["usual"] = new double[,] { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } },
        ["protanopia"] = new double[,] { { 0.152286, 1.052583, -0.204868 }, { 0.114503, 0.786281, 0.099216 }, { -0.003882, -0.048116, 1.051998 } },
        ["deuteranopia"] = new double[,] { { 0.367322, 0.860646, -0.227968 }, { 0.280085, 0.672501, 0.047413 }, { -0.011820, 0.042940, 0.968881 } },
        ["tritanopia"] = new double[,] { { 1.255528, -0.076749, -0.178779 }, { -0.078411, 0.930809, 0.147602 }, { 0.004733, 0.691367, 0.303900 } },
    };

    public static TheoryData<string> Looks => ["light", "dark", "red"];

    [TheoryNeeds<Chromium>]
    [MemberData(nameof(Looks))]
    public async Task Words_and_lines_stand_out_from_what_they_stand_on(string look)
    {
        var tone = await TonesAsync(look);
        foreach (var ground in (string[])["paper", "field"])
        {
            foreach (var ink in (string[])["ink", "quiet", "accent", "good", "missing"]) AtLeast(LeastOfText, ink, ground);
        }
        foreach (var state in States)
        {
            AtLeast(LeastOfDrawing, "bar", state);
            // A bar that misses its light has an edge of paper: one of the two stands out.
            Assert.True(Math.Max(Contrast(tone["missing"], tone[state]), Contrast(tone["paper"], tone[state])) >= LeastOfDrawing, $"missing on {state}");
        }

        void AtLeast(double least, string ink, string ground) =>
            Assert.True(Contrast(tone[ink], tone[ground]) >= least, $"{ink} on {ground}: {Contrast(tone[ink], tone[ground]):0.00}");
    }

    [TheoryNeeds<Chromium>]
    [MemberData(nameof(Looks))]
    public async Task States_of_the_chart_differ_in_lightness_for_every_eye(string look)
    {
        var tone = await TonesAsync(look);
        foreach (var (eye, matrix) in Eyes)
        {
            var lightness = States.Select(state => Lightness(Seen(tone[state], matrix))).Order().ToArray();
            Assert.All(lightness.Zip(lightness.Skip(1)), pair => Assert.True(pair.Second - pair.First >= (look == "red" ? LeastApartInRed : LeastApart), $"{eye}: {string.Join(", ", lightness)}"));
        }
    }

    [FactNeeds<Chromium>]
    public async Task Lit_ground_is_lighter_than_shaded_ground_for_every_eye_and_sun()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, new Uri(service.Client.BaseAddress!, "/health"));
        // By sun altitude, also in the light of a black body at 2000 K (CIE 1931: 0.5267, 0.4133) and of D65.
        var pairs = await page.Tab.EvaluateFunctionAsync<double[][][]>(
            """
            async () => {
              const { inColour, inksAt } = await import('/think/tones.js');
              return Array.from({ length: 47 }, (_, i) => inksAt(i - 6)).flatMap(inks => [inks, inColour(inks, 0.5267, 0.4133), inColour(inks, 0.3127, 0.329)])
                .map(({ lit, shade }) => [lit, shade]);
            }
            """);
        foreach (var matrix in Eyes.Values)
            Assert.All(pairs, pair => Assert.True(Lightness(Seen(Linear(pair[0]), matrix)) > Lightness(Seen(Linear(pair[1]), matrix)) + 20));
    }

    [Fact]
    public void The_yardsticks_are_right()
    {
        // WCAG 2.2: black on white has 21 : 1; the grey #767676 is the lightest that has 4.5 : 1 on white. CIE: the middle grey of 18.42 % has L* = 50.
        Assert.Equal(21, Contrast(Linear([0, 0, 0]), Linear([255, 255, 255])), 1e-9);
        Assert.Equal(4.54, Contrast(Linear([0x76, 0x76, 0x76]), Linear([255, 255, 255])), 0.005);
        Assert.Equal(50, Lightness([0.18418, 0.18418, 0.18418]), 0.01);
        // Grey stays grey for every eye: each row of a matrix has the sum 1.
        Assert.All(Eyes.Values, matrix => Assert.All(Seen([0.5, 0.5, 0.5], matrix), channel => Assert.Equal(0.5, channel, 1e-5)));
    }

    /// <summary>The page's tones in one of its looks, in linear sRGB, as they leave the screen.</summary>
    private async Task<Dictionary<string, double[]>> TonesAsync(string look)
    {
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!);
        var tones = await page.Tab.EvaluateFunctionAsync<Dictionary<string, double[]>>(
            """
            look => {
              document.documentElement.dataset.look = look;
              const probe = document.body.appendChild(document.createElement('i'));
              return Object.fromEntries(['paper', 'field', 'ink', 'quiet', 'accent', 'good', 'missing', 'bar', 'shade', 'lit', 'lit-pale'].map(name => {
                probe.style.color = `var(--${name})`;
                return [name, getComputedStyle(probe).color.match(/[\d.]+/g).slice(0, 3).map(Number)];
              }));
            }
            """, look);
        // Over the red page lies a sheet that only red passes.
        return tones.ToDictionary(tone => tone.Key, tone => look == "red" ? [Linear(tone.Value)[0], 0, 0] : Linear(tone.Value));
    }

    // IEC 61966-2-1.
    private static double[] Linear(double[] rgb) => [.. rgb.Select(value => value / 255).Select(value => value <= 0.04045 ? value / 12.92 : Math.Pow((value + 0.055) / 1.055, 2.4))];

    private static double[] Seen(double[] linear, double[,] matrix) =>
        [.. Enumerable.Range(0, 3).Select(row => Math.Clamp(Enumerable.Range(0, 3).Sum(column => matrix[row, column] * linear[column]), 0, 1))];

    private static double Luminance(double[] linear) => (0.2126 * linear[0]) + (0.7152 * linear[1]) + (0.0722 * linear[2]);

    // WCAG 2.2, definition of contrast ratio.
    private static double Contrast(double[] a, double[] b)
    {
        var (light, dark) = (Math.Max(Luminance(a), Luminance(b)), Math.Min(Luminance(a), Luminance(b)));
        return (light + 0.05) / (dark + 0.05);
    }

    // CIE 1976 L*.
    private static double Lightness(double[] linear) => Luminance(linear) is var y && y > 216.0 / 24389 ? (116 * Math.Cbrt(y)) - 16 : y * 24389 / 27;
}
