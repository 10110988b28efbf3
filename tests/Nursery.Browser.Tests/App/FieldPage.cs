using Microsoft.Playwright;

namespace Nursery.Browser.Tests.App;

/// <summary>
/// What a page for wet hands and sunlight keeps to: targets of at least 56 × 56 CSS px, 8 px between them (more than the 44 px of
/// WCAG 2.2 success criterion 2.5.5), and text of at least 7:1 (success criterion 1.4.6). Measured in the page as drawn.
/// </summary>
public static class FieldPage
{
    private const string Measure =
        """
        () => {
          const wrong = [];
          const seen = element => element.checkVisibility({ visibilityProperty: true, opacityProperty: true });
          const sheet = document.querySelector('dialog[open]') ?? document.body;
          const called = element => `${element.tagName.toLowerCase()}.${element.className} "${(element.ariaLabel || element.textContent || element.value || '').trim().slice(0, 40)}"`;

          // The whole row belongs to the box of a task.
          const area = element => (element.closest('.head') && element.matches('.box') ? element.closest('.head') : element).getBoundingClientRect();
          const targets = [...sheet.querySelectorAll('button, a[href], input, select, summary')].filter(seen);
          const fixed = element => { for (let e = element; e; e = e.parentElement) if (['fixed', 'sticky'].includes(getComputedStyle(e).position)) return true; return false; };
          const boxes = targets.map(element => ({ element, rect: area(element), fixed: fixed(element) }));
          for (const { element, rect } of boxes) {
            if (rect.width < 55.5 || rect.height < 55.5) wrong.push(`target ${Math.round(rect.width)}×${Math.round(rect.height)}: ${called(element)}`);
          }
          for (let i = 0; i < boxes.length; i++) {
            for (let j = i + 1; j < boxes.length; j++) {
              const a = boxes[i], b = boxes[j];
              if (a.fixed !== b.fixed) continue;
              const x = Math.max(a.rect.left, b.rect.left) - Math.min(a.rect.right, b.rect.right);
              const y = Math.max(a.rect.top, b.rect.top) - Math.min(a.rect.bottom, b.rect.bottom);
              if (Math.max(x, y) < 7.5) wrong.push(`gap ${Math.round(Math.max(x, y))}: ${called(a.element)} and ${called(b.element)}`);
            }
          }

          const parse = color => { const n = color.match(/[\d.]+/g).map(Number); return { r: n[0], g: n[1], b: n[2], a: n[3] ?? 1 }; };
          const over = (top, under) => ({ r: top.r * top.a + under.r * (1 - top.a), g: top.g * top.a + under.g * (1 - top.a), b: top.b * top.a + under.b * (1 - top.a), a: 1 });
          const ground = element => {
            const layers = [];
            for (let e = element; e; e = e.parentElement) layers.push(parse(getComputedStyle(e).backgroundColor));
            return layers.reverse().reduce((under, top) => over(top, under), { r: 255, g: 255, b: 255, a: 1 });
          };
          const linear = value => { const c = value / 255; return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4; };
          const light = c => 0.2126 * linear(c.r) + 0.7152 * linear(c.g) + 0.0722 * linear(c.b);
          let texts = 0;
          for (const element of sheet.querySelectorAll('*')) {
            const text = element.matches('input, select') || [...element.childNodes].some(node => node.nodeType === Node.TEXT_NODE && node.data.trim());
            if (!text || !seen(element) || element.matches('.unseen, script, style, option, noscript')) continue;
            texts++;
            const back = ground(element);
            const front = over(parse(getComputedStyle(element).color), back);
            const [high, low] = [light(front), light(back)].sort((p, q) => q - p);
            const ratio = (high + 0.05) / (low + 0.05);
            if (ratio < 7) wrong.push(`contrast ${ratio.toFixed(2)}: ${called(element)}`);
          }
          return [`${targets.length}`, `${texts}`, ...wrong];
        }
        """;

    /// <summary>How many targets and texts were measured, and what is wrong with them.</summary>
    public static async Task<(int Targets, int Texts, IReadOnlyList<string> Wrong)> MeasureAsync(IPage page)
    {
        var answer = await page.EvaluateAsync<string[]>(Measure);
        return (Number(answer[0]), Number(answer[1]), answer[2..]);
    }

    private static int Number(string text) => int.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
}
