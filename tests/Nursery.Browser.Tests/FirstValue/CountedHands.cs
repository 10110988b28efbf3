using Microsoft.Playwright;

namespace Nursery.Browser.Tests.FirstValue;

/// <summary>Hands that are counted: each click, each file chosen, each field typed into is one.</summary>
internal sealed class CountedHands(Action<string> say)
{
    public int Count { get; private set; }

    public async Task ClickAsync(ILocator target, string what)
    {
        Note("click", what);
        await target.ClickAsync();
    }

    public async Task ChooseFileAsync(ILocator target, string what, FilePayload file)
    {
        Note("choose", what);
        await target.SetInputFilesAsync(file);
    }

    public async Task TypeAsync(ILocator target, string what, string text)
    {
        Note("type", what);
        await target.FillAsync(text);
    }

    private void Note(string how, string what) => say($"{++Count,2}  {how} {what}");
}
