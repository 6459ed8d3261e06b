'use strict';
(function () {
  const model = document.getElementById('model');
  const buttons = [...document.querySelectorAll('.maps button')];
  const legends = [...document.querySelectorAll('.legend')];

  for (const legend of legends) {
    const bar = legend.querySelector('.bar');
    bar.style.background = 'linear-gradient(to right, ' + bar.dataset.gradient + ')';
    for (const tick of legend.querySelectorAll('.tick')) {
      tick.style.left = tick.dataset.percent + '%';
    }
  }

  function show(variant) {
    model.variantName = variant;
    for (const button of buttons) {
      button.setAttribute('aria-checked', String(button.dataset.variant === variant));
    }
    for (const legend of legends) {
      legend.hidden = legend.dataset.variant !== variant;
    }
  }

  for (const button of buttons) {
    button.addEventListener('click', () => show(button.dataset.variant));
  }

  const encoded = document.getElementById('glb');
  const bytes = Uint8Array.from(atob(encoded.textContent.trim()), c => c.charCodeAt(0));
  encoded.remove();
  model.addEventListener('load', () => {
    show(buttons.length ? buttons[0].dataset.variant : null);
    document.documentElement.dataset.view = 'ready';
  }, { once: true });
  customElements.whenDefined('model-viewer').then(() => {
    model.src = URL.createObjectURL(new Blob([bytes], { type: 'model/gltf-binary' }));
  });

  for (const plot of document.querySelectorAll('.plot')) {
    drawHistogram(plot);
  }

  function drawHistogram(plot) {
    const from = Number(plot.dataset.from);
    const to = Number(plot.dataset.to);
    const areas = plot.dataset.areas.split(',').map(Number);
    const width = (to - from) / areas.length;
    const limit = plot.dataset.limit === '' ? null : Number(plot.dataset.limit);
    const bars = areas.map((area, i) => [from + (i + 0.5) * width, area / 100]);
    const chart = echarts.init(plot, null, { renderer: 'svg', width: 900, height: 272 });
    const text = { color: '#2b2926', fontFamily: getComputedStyle(document.body).fontFamily, fontSize: 14 };
    chart.setOption({
      animation: false,
      textStyle: text,
      grid: { left: 70, right: 30, top: 34, bottom: 52 },
      xAxis: { type: 'value', min: from, max: to, name: plot.dataset.title + ', ' + plot.dataset.unit, nameLocation: 'middle',
        nameGap: 32, nameTextStyle: text, axisLabel: text, splitLine: { show: false } },
      yAxis: { type: 'value', name: 'Area, cm²', axisLine: { onZero: false }, nameTextStyle: text, axisLabel: text, splitLine: { lineStyle: { color: '#e3ded6' } } },
      series: [{
        type: 'bar', data: bars, barWidth: Math.max(2, 780 / areas.length), barCategoryGap: 0,
        itemStyle: { color: bar => limit !== null && bar.value[0] < limit ? '#b8622f' : '#2e7f87', borderColor: '#fbfaf8', borderWidth: 1 },
        markLine: limit === null ? undefined : { silent: true, symbol: 'none', lineStyle: { color: '#2b2926', type: 'solid', width: 2 },
          label: { formatter: 'limit ' + limit, ...text }, data: [{ xAxis: limit }] }
      }]
    });
    // From fixed pixels to whatever the screen or the sheet gives.
    const svg = plot.querySelector('svg');
    svg.setAttribute('viewBox', '0 0 900 272');
    svg.style.position = 'static';
    for (const box of [svg, svg.parentElement, plot]) {
      box.style.width = '100%';
      box.style.height = 'auto';
    }
  }
})();
